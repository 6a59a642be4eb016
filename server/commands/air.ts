import { writeMeasured } from '#core/metrology/format.ts';
import { AIR_LIMITS } from '#core/rotor/wind/air.ts';
import { airDensity, type AirDensity } from '#core/rotor/wind/air-density.ts';
import { airOf } from '#core/rotor/wind/rotor-and-air.ts';
import { readArguments, readNumber } from './arguments.ts';
import { InputError } from './exit-errors.ts';

const USAGE =
  'stillmark air --temperature DEGC (--pressure PA | --altitude M) --humidity FRACTION [--json]';

/** Each option's limits, and how a number of it is asked for. */
const QUANTITIES = {
  temperature: { ...AIR_LIMITS.temperature_degC, what: 'degrees Celsius' },
  pressure: { ...AIR_LIMITS.pressure_Pa, what: 'pascals (1013 hPa are 101300)' },
  altitude: { ...AIR_LIMITS.altitude_m, what: 'metres above the sea' },
  humidity: { ...AIR_LIMITS.relativeHumidity, what: 'a fraction (50 % is 0.5)' },
} as const;
type Quantity = keyof typeof QUANTITIES;

/** `stillmark air`: how heavy the air is, and how well that is known. */
export function air(argv: readonly string[]): Promise<number> {
  const text = { type: 'string' } as const;
  const options = { temperature: text, pressure: text, altitude: text, humidity: text } as const;
  const { values } = readArguments(argv, { ...options, json: { type: 'boolean' } }, 0);
  if (values.pressure !== undefined && values.altitude !== undefined) {
    throw new InputError('bad-value', 'Give --pressure or --altitude, not both: one follows from the other.');
  }
  const isMeasured = values.altitude === undefined;
  const { air: said, u } = airOf({
    temperature_degC: read('temperature', values.temperature),
    pressure_Pa: isMeasured ? read('pressure', values.pressure) : null,
    altitude_m: isMeasured ? null : read('altitude', values.altitude),
    relativeHumidity: read('humidity', values.humidity),
  });
  const density = airDensity(said, u);
  const basis = isMeasured ? BAROMETER : weatherAbout(said.pressure_Pa);
  console.log(values.json ? JSON.stringify(density, null, 2) : toText(density, basis));
  return Promise.resolve(0);
}

/** @throws InputError that names the option and says what it takes */
function read(quantity: Quantity, text: string | undefined): number {
  const { what, low, high } = QUANTITIES[quantity];
  if (text === undefined) {
    throw new InputError('missing-value', `--${quantity} is missing: ${what} from ${low} to ${high}. Usage: ${USAGE}`);
  }
  return readNumber(quantity, text, { low, high, whole: false, what });
}

const BAROMETER = 'a barometer good to ±2 hPa';

function weatherAbout(pressure_Pa: number): string {
  const usual_hPa = Math.round(pressure_Pa / 100);
  return `the weather, which moves the pressure by some 10 hPa about the ${usual_hPa} hPa of this height`;
}

const PLAIN = { unit: 'kg/m³', prefix: { symbol: '', exponent: 0 } } as const;

function toText(density: AirDensity, basis: string): string {
  const { density_kgpm3: value, standardUncertainty_kgpm3: standardUncertainty, method } = density;
  const measured = { value, standardUncertainty, degreesOfFreedom: Infinity };
  const written = writeMeasured(measured, PLAIN);
  return [
    `${written.value} ± ${written.uncertainty} ${written.unit} (95 %), by ${method}.`,
    `The ± is that of a thermometer good to ±1 °C, a hygrometer good to ±5 % and ${basis}.`,
  ].join('\n');
}
