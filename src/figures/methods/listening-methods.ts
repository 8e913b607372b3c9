import type { Method } from './methods.ts';

/** What listening sessions can show, and how levels are matched. */
export const listeningMethods: readonly Method[] = [
  {
    id: 'listening-trials',
    title: 'Listening: trials by chance alone',
    text: [
      'A blind session asks for one answer a trial, out of two. The order is drawn trial by trial, each alternative with a probability of one half and whatever came before, so that guessing is right in half of the trials in any style of guessing. The exact binomial distribution then says how often chance alone does as well: one-sided where the question is which of the two is playing, as only right answers speak for hearing; two-sided where it is which is preferred. There a trial always plays both, and one is always chosen.',
      'A probability of 5 % or less is taken as shown. A larger one shows nothing, neither a difference nor its absence: that depends on how likely the session was to find what is worth finding. A session that states this gets the probability of finding it in the trials that were held, and the smallest number of trials that would find it as surely as was asked for; one that does not, and shows nothing, gets the numbers that shares of 60 %, 75 % and 90 % take with both errors at 5 %. As successes are whole, a slightly larger number can fall short again.',
      'The share of right answers, or of choices, comes with two intervals of 95 %. That of Wilson holds in about 95 % on average; that of Clopper and Pearson in at least 95 % whatever the share, and is wider for it. Both are two-sided, and can include one half where the one-sided probability is below 5 %.',
      'All of this is true of a number of trials fixed beforehand. A session without one, or that stopped early or went on, says so beside its result: who may stop when it suits gets small probabilities more often than they say. Sighted trials get neither probability nor interval, as knowing what plays is enough to answer.',
      'A sealed session has its order in a key file, written before it with random characters in it. Its SHA-256 stands in the record from the beginning; when the key file is put beside the record, it and the order of the trials are checked against the hash. That shows that the order was not chosen afterwards. It does not show that nobody looked.',
      'What was heard in a band is set beside the total distortion measured there: the energy mean of the octaves whose middle lies in the band, of the same octaves for both alternatives. It is a neighbourhood, and no explanation.',
    ],
    formulas: [
      {
        tex: 'p = \\sum_{k=r}^{n} \\binom{n}{k} 2^{-n},\\qquad p_2 = \\min(1,\\,2p)',
        where: 'r right answers or more of n; p₂ for preference, with r the larger of the two counts',
      },
      {
        tex: '\\frac{s + z^2/2n \\pm z\\sqrt{s(1-s)/n + z^2/4n^2}}{1 + z^2/n}',
        where: 'interval of Wilson for a share s of n trials, z = 1.96',
      },
    ],
    sources: [
      'L. Leventhal, J. Audio Eng. Soc. 34:437 (1986), for errors of both kinds in listening tests (its table from a quotation, reproduced)',
      'E. B. Wilson, J. Amer. Statist. Assoc. 22:209 (1927) and C. J. Clopper and E. S. Pearson, Biometrika 26:404 (1934), from memory',
      'R. G. Newcombe, Statist. Med. 17:857 (1998), whose examples are reproduced',
      'FIPS 180-4 for SHA-256',
    ],
  },
  {
    id: 'level-matching',
    title: 'Listening: matching levels',
    text: [
      'The difference in level between two alternatives comes from one reading of each by the same meter, so that the meter’s own gain drops out: the voltage at the speaker terminals with the speaker connected, or the sound level at the listener’s place. It holds for the signal that was played for it; alternatives whose responses differ are matched there and nowhere else.',
      'The session states its target, and the difference is told beside every result. A louder alternative can be told apart and preferred for its level alone. The smallest step in level that listeners notice in pulsed tones is about 0.4 dB at 80 dB above threshold, so that a match within 0.1 dB lies well below it.',
    ],
    formulas: [
      {
        tex: '\\Delta L = 20 \\lg \\frac{U_1}{U_2},\\qquad \\Delta L = L_1 - L_2',
        where: 'by voltage, and by sound level meter',
      },
      {
        tex: '\\frac{\\Delta I}{I} = 0.463 \\left(\\frac{I}{I_0}\\right)^{-0.072}',
        where: 'just noticeable step of intensity I, I₀ at threshold',
      },
    ],
    sources: [
      'W. Jesteadt, C. C. Wier and D. M. Green, J. Acoust. Soc. Am. 61:169 (1977), the formula from a quotation',
    ],
  },
];
