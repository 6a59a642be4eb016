/** The rig, watched second by second: what is found stays until the readings say otherwise. */
import type { RigHeard } from '../experiment/conductor/rig-heard.ts';
import type { BeyondLimits } from '../reading/reading.ts';
import type { Sample } from '../signal/sample.ts';
import { nameOfFinding, type Finding } from './finding.ts';
import { KEPT_s, MOST, RULES } from './rules.ts';
import { createFilling, fill, WATCHED, type Filling, type Second, type Watched } from './seconds.ts';

export interface RigWatch {
  filling: Filling;
  seconds: Second[];
  readonly largest: Record<Watched, number>;
  readonly highest: Record<Watched, number>;
  /** For how many seconds on end each rule has said so. */
  held: number[];
  findings: readonly Finding[];
}

export function createRigWatch(): RigWatch {
  const none = () => ({ voltage_V: 0, current_A: 0, windSpeed_mps: 0 });
  return {
    filling: createFilling(),
    seconds: [],
    largest: none(),
    highest: none(),
    held: RULES.map(() => 0),
    findings: [],
  };
}

/** The samples stop being one story; what was found stands until they say otherwise. */
export function loseRig(watch: RigWatch): void {
  watch.filling = createFilling();
  watch.seconds = [];
  watch.held = RULES.map(() => 0);
}

/** A number that no such quantity has was left out of the sample that comes with it. */
export function noteBeyond({ filling }: RigWatch, { channel, value }: BeyondLimits): void {
  if (channel === 'rotorSpeed_radps') return;
  const { count } = filling.beyond[channel];
  filling.beyond[channel] = { count: count + 1, last: value };
}

/** @returns whether what is found has changed by this sample */
export function watchRig(watch: RigWatch, sample: Sample, rig: RigHeard): boolean {
  const second = fill(watch.filling, sample);
  if (second === null) return false;
  watch.seconds.push(second);
  if (watch.seconds.length > KEPT_s) watch.seconds.shift();
  for (const channel of WATCHED) {
    const one = second.channels[channel];
    // What no rig gives says nothing of this one.
    if (one === null || Math.abs(one.mean) > MOST[channel]) continue;
    watch.largest[channel] = Math.max(watch.largest[channel], Math.abs(one.mean));
    const far = Math.max(Math.abs(one.low), Math.abs(one.high));
    watch.highest[channel] = Math.max(watch.highest[channel], far);
  }
  const before = watch.findings.map(nameOfFinding).join();
  look(watch, rig);
  return watch.findings.map(nameOfFinding).join() !== before;
}

function look(watch: RigWatch, rig: RigHeard): void {
  const known = { ...watch, rig };
  RULES.forEach(({ kind, holds_s, look: lookAt }, place) => {
    const seen = lookAt(known);
    if (seen === null) return;
    const held = seen === false ? 0 : (watch.held[place] ?? 0) + 1;
    watch.held[place] = held;
    if (seen !== false && held < holds_s) return;
    const others = watch.findings.filter((one) => one.kind !== kind);
    const isFound = watch.findings.length > others.length;
    if (seen === false && !isFound) return;
    watch.findings = seen === false ? others : [...others, { kind, trialId: null, ...seen }];
  });
}
