import type { Method } from './methods.ts';

/** How what was measured is made into sounds. */
export const hearingMethods: readonly Method[] = [
  {
    id: 'hearing',
    title: 'Hearing the distortion',
    text: [
      'Two sounds are made from the lines of a capture: its tone, or its two tones, alone, and with the harmonics or combinations that were told from noise, each with the level and the phase that were measured relative to the tones. Both sounds are brought to the same rms level. Lines that noise alone could have given are left out, as are those that sampling may have spoilt and those that would lie above 20 kHz or above what the device plays; the page names them. Noise, hum and everything between the lines are not played.',
      'A sine below 40 Hz or above 8 kHz is played at 1 kHz, and two tones beyond that range with the upper one at 4 kHz; all lines move with them and keep their levels. How a distortion is heard depends on pitch and loudness, so that this shows the shape of a distortion more than how it is heard at its own place.',
      'The volume is given in decibels below the largest sine that the device can play. It begins at −54 dB and ends at −20 dB. It says nothing of sound pressure, which the device and the loudspeaker decide.',
    ],
    formulas: [
      {
        tex: 's(t)=g\\,\\frac{\\cos\\omega t+\\sum_n h_n\\cos(n\\omega t+\\varphi_n)}{\\sqrt{1+\\sum_n h_n^2}}',
        where:
          'hₙ and φₙ are the ratio and the relative phase of each harmonic, g is the volume; without the harmonics s = g cos ωt. Combinations of two tones enter likewise',
      },
    ],
    sources: [
      'W3C Recommendation Web Audio API (2021), PeriodicWave and OscillatorNode',
      'Parseval’s theorem for the rms level',
      'the bounds of pitch and volume are choices of this software',
    ],
  },
];
