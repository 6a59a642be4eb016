import { deflateRawSync } from 'node:zlib';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ConfigurationSchema } from '#core/configuration.ts';
import { InputSchema, type Input } from '#core/inputs.ts';
import { ANEMOMETERS } from '#core/rotor/wind/anemometer.ts';
import { StoreError } from '../../../server/store/errors.ts';
import { decodeInputs, encodeInputs, splitInputs } from '../../../server/store/input-codec.ts';
import { plans } from '../../unit/experiment/plan-arbitrary.ts';
import { exampleLines } from './examples.ts';

const at_s = fc.integer({ min: -1e6, max: 1e15 }).map((at_us) => at_us / 1e6);
const finite = fc.double({ noNaN: true, noDefaultInfinity: true }).filter((x) => !Object.is(x, -0));
const lineText = fc.oneof(
  fc.stringMatching(/^[\t\x20-\x7e]*$/),
  // Beyond the guard's promise: must come back too.
  fc.string({ unit: 'binary' }),
);
const link = fc.record({
  source: fc.constantFrom('serial', 'simulated', 'replay'),
  id: fc.string(),
  name: fc.string({ unit: 'grapheme' }),
  clock: fc.constantFrom('arrival', 'stream'),
  wholeFromStart: fc.boolean(),
});
const target = { recordingId: fc.integer({ min: 1 }), time_s: finite };
/** Of a trial that was made by hand, or not. */
const addressed = fc.oneof(fc.record(target), fc.record({ ...target, isByHand: fc.boolean() }));
const marked = fc.oneof(
  fc.record({ kind: fc.constant('strike'), ...target, reason: fc.string({ maxLength: 200 }) }),
  fc.record({ kind: fc.constant('restore'), ...target }),
  fc.record({ kind: fc.constant('note'), ...target, text: fc.string({ maxLength: 500 }) }),
  fc.record({
    kind: fc.constant('move'),
    ...target,
    runId: fc.option(fc.string({ maxLength: 200 })),
  }),
);
const action = fc.tuple(marked, addressed).map(([mark, address]) => ({ ...mark, ...address }));
const positive = finite.filter((x) => x > 0);
const meter = fc.record({
  range: positive,
  resolution: positive,
  relative: fc.double({ min: 0, max: 1, noNaN: true }).map(Math.abs),
  counts: fc.integer({ min: 0, max: 1000 }),
  unit: fc.string({ minLength: 1, maxLength: 8 }),
});
const written = fc.record({ value: finite, step: positive });
const reading = fc.record({ voltage: written, current: written, windSpeed: fc.option(written) });
const keyIn = fc.record({
  say: fc.constant('key-in'),
  runId: fc.option(fc.string({ minLength: 1, maxLength: 200 })),
  meters: fc.record({ voltage: meter, current: meter, windSpeed: fc.option(meter) }),
  readings: fc.array(reading, { maxLength: 20 }),
  didNotTurn: fc.boolean(),
  note: fc.option(fc.string({ maxLength: 500 })),
});
const measured = fc.option(
  fc.record({ value: finite, standardUncertainty: fc.option(positive), degreesOfFreedom: finite }),
);
const row = fc.record({
  line: fc.integer({ min: 1, max: 600 }),
  factors: fc.dictionary(fc.stringMatching(/^[a-z]{1,8}$/), fc.oneof(finite, fc.string())),
  run: fc.option(fc.string({ maxLength: 200 })),
  round: fc.option(fc.integer({ min: 1, max: 20 })),
  rotorStill: fc.boolean(),
  recorded: fc.boolean(),
  group: fc.option(fc.string({ maxLength: 24 })),
  values: fc.record({
    voltage_V: measured,
    current_A: measured,
    power_W: measured,
    windSpeed_mps: measured,
    rotorSpeed_radps: measured,
  }),
  note: fc.option(fc.string({ maxLength: 500 })),
  struck: fc.boolean(),
  strikeReason: fc.option(fc.string({ maxLength: 200 })),
  runId: fc.option(fc.string({ minLength: 1, maxLength: 200 })),
});
const brought = fc.record({
  say: fc.constant('bring-in'),
  name: fc.string({ maxLength: 200 }),
  rows: fc.array(row, { minLength: 1, maxLength: 5 }),
  again: fc.boolean(),
});
const command = fc.oneof(
  keyIn,
  brought,
  plans.map((plan) => ({ say: 'plan' as const, plan })),
  fc.constant({ say: 'plan' as const, plan: null }),
  fc.record({
    say: fc.constantFrom('again', 'skip', 'unskip', 'take-up'),
    runId: fc.string({ minLength: 1, maxLength: 200 }),
  }),
  fc.record({ say: fc.constantFrom('is-set', 'log-now', 'average', 'wait', 'cover', 'undo') }),
  fc.record({ say: fc.constant('fan-is-on'), on: fc.boolean() }),
  fc.record({
    say: fc.constant('predict'),
    level: fc.string({ minLength: 1, maxLength: 24 }),
    votes: fc.integer({ min: 0, max: 999 }),
  }),
  fc.record({
    say: fc.constant('fit-generator'),
    readings: fc.option(
      fc.record({
        speed: fc.constantFrom('read', 'held', 'free'),
        steps: fc.array(
          fc.record({
            rotorSpeed_radps: fc.option(fc.double({ min: 0, max: 5000, noNaN: true })),
            voltage_V: fc.double({ min: 0, max: 100, noNaN: true }),
            current_A: fc.double({ min: 0, max: 20, noNaN: true }),
          }),
          { minLength: 1, maxLength: 20 },
        ),
      }),
    ),
  }),
  fc.record({
    say: fc.constant('rotor-and-air'),
    described: fc.record({
      rig: fc.record({
        blades: fc.option(fc.integer({ min: 1, max: 12 })),
        chord_m: fc.option(fc.double({ min: 0.001, max: 0.05, noNaN: true })),
        angle_deg: fc.option(fc.double({ min: 0, max: 90, noNaN: true })),
        windSpeed_mps: fc.option(fc.double({ min: 0.1, max: 40, noNaN: true })),
        jetRadius_m: fc.option(fc.double({ min: 0.01, max: 10, noNaN: true })),
        emfConstant_Vsprad: fc.option(fc.double({ min: 1e-4, max: 10, noNaN: true })),
        windingResistance_Ohm: fc.option(fc.double({ min: 0.01, max: 1e5, noNaN: true })),
        staticTorque_Nm: fc.option(fc.double({ min: 0, max: 10, noNaN: true })),
        load: fc.option(fc.constantFrom(
          { kind: 'resistor', resistance_Ohm: 50 },
          { kind: 'lamp', ratedVoltage_V: 2.5, ratedCurrent_A: 0.2 },
        )),
      }),
      radius_m: fc.option(fc.double({ min: 0.2, max: 2, noNaN: true })),
      hubRadius_m: fc.double({ min: 0, max: 0.1, noNaN: true }),
      air: fc.record({
        // JSON knows no −0.
        temperature_degC: fc.option(fc.double({ min: -40, max: 60, noNaN: true }).map((degC) => degC + 0)),
        pressure_Pa: fc.option(fc.double({ min: 50_000, max: 110_000, noNaN: true })),
        altitude_m: fc.option(fc.double({ min: -500, max: 5500, noNaN: true }).map((metres) => metres + 0)),
        relativeHumidity: fc.option(fc.double({ min: 0, max: 1, noNaN: true })),
      }),
      anemometer: fc.option(fc.constantFrom(...Object.values(ANEMOMETERS))),
      traverse: fc.option(
        fc.record({
          rings_mps: fc.array(fc.double({ min: 0.1, max: 40, noNaN: true }), { minLength: 2, maxLength: 12 }),
          atPlace_mps: fc.double({ min: 0.1, max: 40, noNaN: true }),
        }),
      ),
    }),
  }),
);
const configuration = fc
  .record({
    columns: fc.array(fc.string(), { maxLength: 32 }),
    calibration: fc.record(
      { voltage_V: fc.record({ gain: finite.filter((gain) => gain !== 0), offset: finite }) },
      { requiredKeys: [] },
    ),
    windPerPulseRate_m: fc.option(finite.filter((x) => x > 0)),
    pulsesPerTurn: fc.option(finite.filter((x) => x > 0)),
    sampleRate_Hz: fc.double({ min: 1, max: 10_000, noNaN: true }),
  })
  .map((value) => ConfigurationSchema.parse(value));
const input: fc.Arbitrary<Input> = fc
  .oneof(
    { weight: 8, arbitrary: fc.record({ kind: fc.constant('line'), at_s, text: lineText }) },
    fc.record({ kind: fc.constant('tick'), at_s }),
    fc.record({
      kind: fc.constant('slept'),
      at_s,
      lasted_s: finite.filter((span_s) => span_s > 0),
    }),
    fc.record({ kind: fc.constant('zero'), at_s, channel: fc.integer({ min: 1, max: 16 }) }),
    fc.record({ kind: fc.constant('opened'), at_s, link }),
    fc.record({
      kind: fc.constant('dropped'),
      at_s,
      fault: fc.constantFrom('tooLong', 'malformed'),
      count: fc.integer({ min: 1 }),
    }),
    fc.record({ kind: fc.constant('closed'), at_s, reason: fc.constantFrom('unplugged', 'replaced', 'ended') }),
    fc.record({ kind: fc.constant('action'), at_s, action }),
    fc.record({ kind: fc.constant('command'), at_s, command }),
    fc.record({ kind: fc.constant('configured'), at_s, configuration }),
    fc.record({ kind: fc.constant('configured'), at_s, configuration, corrected: fc.constantFrom('voltage_V', 'windSpeed_mps') }),
  )
  .map((value) => InputSchema.parse(value));

describe('recorded input', () => {
  it('comes back as it went in', () => {
    fc.assert(
      fc.property(fc.array(input), (inputs) => {
        expect(decodeInputs(encodeInputs(inputs))).toEqual(inputs);
      }),
    );
  });

  it('covers every kind of input that there is', () => {
    const kinds = new Set(fc.sample(input, { numRuns: 2000, seed: 1 }).map(({ kind }) => kind));
    expect([...kinds].sort()).toEqual(InputSchema.options.map(({ shape }) => shape.kind.value).sort());
  });

  it('is split into chunks without losing or reordering anything', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 12_000 }), (count) => {
        const inputs = exampleLines(count, 1000);
        const pieces = splitInputs(inputs);
        expect(pieces.flatMap((piece) => decodeInputs(encodeInputs(piece)))).toEqual(inputs);
        expect(pieces.length).toBe(Math.ceil(inputs.length / (pieces[0]?.length ?? 1)));
      }),
      { numRuns: 20 },
    );
  });

  it('refuses a time that is not a whole number of microseconds', () => {
    expect(() => encodeInputs([{ kind: 'tick', at_s: 1e-7 }])).toThrow(/whole number of µs/);
    expect(() => encodeInputs([{ kind: 'tick', at_s: NaN }])).toThrow(/whole number of µs/);
  });

  it('refuses an input too large to read back', () => {
    const text = 'x'.repeat(5 * 1024 * 1024);
    expect(() => encodeInputs([{ kind: 'line', at_s: 0, text }])).toThrow(/too large/);
  });
});

describe('the form of a chunk', () => {
  const chunk = (...body: number[]): Uint8Array =>
    Uint8Array.of(1, ...deflateRawSync(Uint8Array.from(body)));

  it('writes numbers as protocol buffers do', () => {
    // Examples of the encoding's documentation (protobuf.dev, "Encoding"): 150 is 96 01, and by
    // zigzag −1 is 1, 1 is 2, −2 is 3. Times here are 75, 74, 75 and 73 µs; the last is 75 − 2.
    const line = [97, 10];
    const bytes = chunk(4, 0x96, 0x01, 1, 2, 3, 0, 0, 0, 0, ...line, ...line, ...line, 97);
    expect(decodeInputs(bytes).map(({ at_s }) => at_s * 1e6)).toEqual([75, 74, 75, 73]);
  });

  it.each([
    ['no bytes', Uint8Array.of()],
    ['another version', Uint8Array.of(2, 0)],
    ['what does not unpack', Uint8Array.of(1, 0xff, 0xff)],
    ['fewer texts than inputs', chunk(2, 0, 0, 0, 0, 97)],
    ['more inputs than bytes', chunk(0xff, 0xff, 0x7f)],
    ['a number without end', chunk(0xff)],
    ['an unknown form', chunk(1, 0, 7, 97)],
    ['a control byte in a line', chunk(1, 0, 0, 7)],
    ['text that is not UTF-8', chunk(1, 0, 0, 0xff)],
    ['an input that is not JSON', chunk(1, 0, 1, 123)],
    ['an input that is no object', chunk(1, 0, 1, 49)],
    ['an input that does not fit', chunk(1, 0, 1, 123, 125)],
    ['more than may be unpacked', Uint8Array.of(1, ...deflateRawSync(new Uint8Array(5 * 1024 * 1024)))],
  ])('is refused when it holds %s', (_, bytes) => {
    expect(() => decodeInputs(bytes)).toThrow(StoreError);
  });

  it('never fails otherwise than by saying that it is damaged', () => {
    const intact = encodeInputs(exampleLines(40, 50));
    fc.assert(
      fc.property(fc.nat(intact.length - 1), fc.integer({ min: 1, max: 255 }), (index, flip) => {
        const bytes = Uint8Array.from(intact);
        bytes[index] = (bytes[index] ?? 0) ^ flip;
        try {
          // Without the row's checksum a flip may go unseen, but what comes out are inputs.
          for (const one of decodeInputs(bytes)) InputSchema.parse(one);
        } catch (error) {
          expect(error).toMatchObject({ code: 'data-damaged' });
        }
      }),
    );
  });
});
