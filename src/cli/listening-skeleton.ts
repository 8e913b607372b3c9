import type { SessionKey } from '../listening/index.ts';

interface Skeleton {
  key: SessionKey;
  date: string;
  amplifier: string;
  alternatives: readonly [string, string];
  sha256: string;
}

/** The record of a session that is still to be held, with what each key is for. */
export function listeningSkeleton({ key, date, amplifier, alternatives, sha256 }: Skeleton): string {
  const [first, second] = alternatives;
  return `---
title: ${first} and ${second}, blind
date: ${date}
amplifier: ${amplifier}
# decision: decisions/0001-which-one     the decision that it belongs to
question: ${questionOf(key.task, alternatives)}
# answer: one sentence, once there is one
source: what plays, and through which loudspeakers in which room
listening: blind                 # blind or sighted
task: ${key.task}
alternatives:
  # version: and capture: are optional; a frequency sweep with distortion gives the bands their measured figures
  - { id: ${first}, title: ${first} }
  - { id: ${second}, title: ${second} }
programme:
  - { id: passage-1, title: what is played, listenFor: what to listen for }
# levelMatching:
#   by: voltage                    voltage at the speaker terminals, or meter for a sound level meter
#   signal: 1 kHz
#   target: 0.1 dB
#   readings: [ { of: ${first}, value: 2.83 V }, { of: ${second}, value: 2.83 V } ]
# aim: { share: 75 %, power: 80 % }    what share of ${key.task === 'preference' ? 'choices' : 'right answers'} the session should find, and how surely
plannedTrials: ${key.order.length}
keySha256: ${sha256}
trials: []
  # - { played: ${first}, answer: ${second}, passage: passage-1 }
notes: []
  # - { band: [ 20 Hz, 100 Hz ], of: ${first}, heard: what was heard there }
---

The session is still to be held. Its ${key.order.length} trials are drawn and sealed.
`;
}

const questionOf = (task: SessionKey['task'], [first, second]: readonly [string, string]): string =>
  task === 'preference'
    ? `Is ${first} or ${second} preferred?`
    : `Can ${first} and ${second} be told apart by ear?`;
