import { lifecycle } from './lifecycle.ts';

export const heat = lifecycle(
  ['laid_out', 'primed', 'alight', 'cooling', 'in_pickle', 'looking', 'cleared', 'spoilt', 'skipped', 'on_hold'],
  [
    {
      from: ['laid_out'],
      to: 'primed',
      who: ['bench', 'student'],
      guard: 'ready-to-light',
      onlyIf: 'joint clean and fitted; flux on; solder placed from a named lot; every protection in place; cautions read',
    },
    { from: ['primed'], to: 'laid_out', who: ['bench', 'student'], guard: 'something-missing', onlyIf: 'something is missing' },
    {
      from: ['primed'],
      to: 'alight',
      who: ['bench', 'student'],
      guard: 'one-alight-tutor-yes',
      onlyIf: "only one heat alight at a bench; student needs tutor's yes",
    },
    { from: ['alight'], to: 'primed', who: ['bench', 'student'], guard: 'nothing-flowed', onlyIf: 'false start, nothing flowed' },
    {
      from: ['alight'],
      to: 'cooling',
      who: ['bench', 'student'],
      guard: 'flame-off',
      onlyIf: 'flame off; a word on what was seen',
    },
    {
      from: ['cooling'],
      to: 'in_pickle',
      who: ['bench', 'student'],
      guard: 'black-heat-iron-off',
      onlyIf: 'black heat reached; iron off: yes; stone in: no; hollow: vent open',
    },
    { from: ['cooling'], to: 'looking', who: ['bench', 'student'], guard: 'no-pickle-needed', onlyIf: 'no pickle needed' },
    { from: ['in_pickle'], to: 'looking', who: ['bench', 'student'], guard: 'rinsed-dried', onlyIf: 'rinsed, dried' },
    {
      from: ['looking'],
      to: 'cleared',
      who: ['bench', 'student'],
      guard: 'flowed-and-sound',
      onlyIf: 'outcome flowed; each joint sound; no earlier joint moved',
      effect: 'planned solder becomes used',
    },
    {
      from: ['looking'],
      to: 'spoilt',
      who: ['bench', 'student'],
      guard: 'other-outcome',
      onlyIf: 'any other outcome',
      effect: 'incident opened; piece hurt; later heats on hold',
    },
    {
      from: ['laid_out', 'primed'],
      to: 'skipped',
      who: ['bench', 'owner', 'student'],
      guard: 'left-out-of-plan',
      onlyIf: 'a new plan version leaves it out',
    },
    {
      from: ['alight', 'cooling'],
      to: 'spoilt',
      who: ['bench', 'student'],
      guard: 'something-went-wrong',
      onlyIf: 'something went wrong',
      effect: 'incident opened; piece hurt; solder really used booked; history written and marked',
    },
    {
      from: ['laid_out'],
      to: 'on_hold',
      who: ['system'],
      guard: 'earlier-heat-spoilt',
      onlyIf: 'an earlier heat was spoilt in the same section',
    },
    {
      from: ['on_hold'],
      to: 'laid_out',
      who: ['bench', 'student'],
      guard: 'plan-covers-true-state',
      onlyIf: 'a plan version that knows the true state covers it',
    },
    {
      from: ['on_hold'],
      to: 'skipped',
      who: ['bench', 'owner'],
      guard: 'left-out-of-plan',
      onlyIf: 'the new plan leaves it out',
    },
  ],
);

export const joint = lifecycle(
  ['open', 'placed', 'sound', 'doubtful', 'moved'],
  [
    { from: ['open'], to: 'placed', who: ['bench'], guard: 'its-heat-primed', onlyIf: 'its heat primed' },
    { from: ['placed'], to: 'sound', who: ['bench'], guard: 'seen-at-looking', onlyIf: 'seen at looking' },
    {
      from: ['placed'],
      to: 'open',
      who: ['bench', 'student'],
      guard: 'no-flow-or-heat-unprimed',
      onlyIf: 'no flow, or its heat was un-primed or skipped',
    },
    {
      from: ['sound'],
      to: 'doubtful',
      who: ['system'],
      guard: 'predicted-to-soften',
      onlyIf:
        'a later heat was predicted to soften or run it; set when that heat goes to cooling, looked at before that heat clears',
      effect: 'asks for a look',
    },
    { from: ['doubtful'], to: 'sound', who: ['bench'], guard: 'looked-at-good', onlyIf: 'looked at, good' },
    {
      from: ['sound', 'doubtful'],
      to: 'moved',
      who: ['bench'],
      guard: 'reflow-seen',
      onlyIf: 'reflow seen',
      effect: 'must be remade in a new plan version',
    },
    { from: ['moved'], to: 'open', who: ['bench'], guard: 'cleaned-and-refitted', onlyIf: 'cleaned and refitted' },
    { from: ['placed'], to: 'doubtful', who: ['bench', 'student'], guard: 'flowed-in-part', onlyIf: 'flowed in part' },
    {
      from: ['sound'],
      to: 'open',
      who: ['bench', 'owner'],
      guard: 'opened-on-purpose',
      onlyIf: 'opened on purpose (resizing, repair)',
    },
  ],
);

export const planVersion = lifecycle(
  ['draft', 'checked', 'signed', 'in_use', 'replaced'],
  [
    {
      from: ['draft'],
      to: 'checked',
      who: ['bench', 'student', 'owner'],
      guard: 'covers-open-joints-check-read',
      onlyIf: 'covers every joint not already sound; check has been run and read',
    },
    { from: ['checked'], to: 'signed', who: ['tutor', 'owner'], guard: 'plan-by-student', onlyIf: 'plan by a student' },
    {
      from: ['checked', 'signed'],
      to: 'in_use',
      who: ['bench', 'owner'],
      guard: 'student-plan-signed',
      onlyIf: 'a student plan is signed',
      effect: 'the version before is replaced',
    },
    {
      from: ['draft', 'checked', 'signed', 'in_use'],
      to: 'replaced',
      who: ['system'],
      guard: 'newer-version-in-use',
      onlyIf: 'a newer version is in use',
    },
  ],
);

export const incident = lifecycle(
  ['seen', 'explained', 'put_right', 'left_as_is'],
  [
    { from: ['seen'], to: 'explained', who: ['bench', 'owner'], guard: 'cause-chosen', onlyIf: 'cause chosen' },
    {
      from: ['explained'],
      to: 'put_right',
      who: ['bench', 'owner'],
      guard: 'loss-noted',
      onlyIf: 'how; minutes and solder lost',
    },
    { from: ['explained'], to: 'left_as_is', who: ['owner'], guard: 'client-told-or-not', onlyIf: 'client told: yes/no' },
  ],
);

export const benchTime = lifecycle(
  ['running', 'stopped', 'in_doubt', 'agreed', 'locked'],
  [
    { from: ['running'], to: 'stopped', who: ['person', 'system'] },
    {
      from: ['running'],
      to: 'in_doubt',
      who: ['clock'],
      guard: 'timer-forgotten',
      onlyIf: 'over 4 h, or past closing time + 1 h',
      effect: 'left out of learning',
    },
    {
      from: ['stopped', 'in_doubt'],
      to: 'agreed',
      who: ['person', 'owner'],
      guard: 'times-confirmed',
      onlyIf: 'times confirmed',
    },
    { from: ['agreed'], to: 'locked', who: ['clock'], guard: 'month-closed', onlyIf: 'month closed' },
  ],
);

export const pickleBath = lifecycle(
  ['fresh', 'in_use', 'tiring', 'fouled', 'spent', 'neutralised', 'gone'],
  [
    { from: ['fresh'], to: 'in_use', who: ['bench'], guard: 'first-dip', onlyIf: 'first dip' },
    { from: ['in_use'], to: 'tiring', who: ['system'], guard: 'nearly-spent', onlyIf: '80 % of copper limit or of usable acid' },
    { from: ['in_use', 'tiring'], to: 'fouled', who: ['anyone'], guard: 'iron-went-in', onlyIf: 'iron went in' },
    {
      from: ['fouled'],
      to: 'in_use',
      who: ['bench'],
      guard: 'iron-out-blush-checked',
      onlyIf: 'iron out, pieces checked for copper blush',
    },
    {
      from: ['in_use', 'tiring'],
      to: 'spent',
      who: ['bench', 'system'],
      guard: 'limit-reached',
      onlyIf: 'limit reached',
      effect: 'cannot be chosen',
    },
    { from: ['spent', 'fouled'], to: 'neutralised', who: ['owner'], guard: 'ph-noted', onlyIf: 'pH noted, 7–9' },
    { from: ['neutralised'], to: 'gone', who: ['owner'], guard: 'disposal-noted', onlyIf: 'where it went, per local rule' },
    { from: ['fresh'], to: 'neutralised', who: ['owner'], guard: 'made-up-wrongly', onlyIf: 'made up wrongly' },
  ],
);
