/** The tables behind the answer: levels, differences, tests, two factors together. */
import type { AnalysedPart } from '#core/experiment/analysis/analysis.ts';
import type { TwoFactors } from '#core/experiment/analysis/two-factors.ts';
import type { LevelSummary } from '#core/experiment/comparison/comparison-schema.ts';
import type { SameWind } from '#core/experiment/analysis/same-wind.ts';
import { decimalAt, NO_VALUE, UNIT_SPACE, writeMeasured } from '#core/metrology/format.ts';
import { unitOf } from '../model/quantities.ts';
import { limitsAt, placeFor, powerAt, shortOdds, type Writing } from './numbers.ts';
import { Scroller, Section } from './section.tsx';
import {
  inPlansOrder,
  shownLevels,
  shownPairs,
  shownTests,
  type ShownPairs,
  type Strip,
} from './shown-comparison.ts';
import type { Report } from './state.ts';

interface Props {
  readonly report: Report;
  readonly part: AnalysedPart;
}

export function Comparison({ report, part }: Props) {
  const writing = writingOf(report);
  const say = report.say.value;
  const pairs = shownPairs(part, writing, say.comparison);
  const { levels } = part.answer.comparison;
  if (levels.length === 0) return null;
  return (
    <Section name={say.section.comparison} class="wide">
      <Levels report={report} part={part} />
      {part.twoFactors !== null && <Together report={report} table={part.twoFactors} />}
      {pairs === null ? (
        <p>{say.comparison.onceEach}</p>
      ) : (
        <>
          <Pairs report={report} pairs={pairs} />
          <Tests report={report} part={part} />
          {part.sameWind !== null && <InOneWind report={report} part={part} wind={part.sameWind} />}
          <p class="note soft">{say.comparison.onceNote}</p>
        </>
      )}
    </Section>
  );
}

function writingOf({ prefixes, words }: Report): Writing {
  return { prefix: prefixes.value.power_W, words: words.value };
}

function Levels({ report, part }: Props) {
  const { say, words } = report;
  const { heads, levelsNote, readingNote } = say.value.comparison;
  const levels = shownLevels(part, writingOf(report), words.value.top.list.didNotTurn);
  const hasOwn = levels.some(({ isLeast, limits }) => !isLeast && limits !== NO_VALUE);
  return (
    <>
      <Scroller name={heads.level}>
        <table class="levels">
          <thead>
            <tr>
              <th scope="col">{heads.level}</th>
              <th scope="col" class="number">
                {heads.settings}
              </th>
              <th scope="col" class="number">
                {withUnit(heads.mean, report)}
              </th>
              <th scope="col" class="number">
                {withUnit(heads.limits, report)}
              </th>
              <td />
            </tr>
          </thead>
          <tbody>
            {levels.map(({ label, settings, mean, limits, isLeast, strip }) => (
              <tr key={label}>
                <th scope="row">{label}</th>
                <td class="number">{settings}</td>
                <td class="number mean">{mean}</td>
                <td class={isLeast ? 'number soft' : 'number'}>{limits}</td>
                <td class="strip-cell">
                  {strip !== null && <StripOf strip={strip} isHeavy={!isLeast} />}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </Scroller>
      <p class="note soft">
        {hasOwn && levelsNote} {levels.some(({ isLeast }) => isLeast) && readingNote}
      </p>
    </>
  );
}

function withUnit(head: string, { prefixes }: Report): string {
  return `${head}, ${unitOf('power_W', prefixes.value.power_W)}`;
}

const STRIP = { height: 12, wide: 200, narrow: 110 } as const;

/** A value on its interval: heavy where it stands, an outline where it may be nothing. */
function StripOf({
  strip,
  isHeavy,
  nothing = null,
}: {
  strip: Strip;
  isHeavy: boolean;
  /** Where no difference lies, to be marked. */
  nothing?: number | null;
}) {
  const width = nothing === null ? STRIP.wide : STRIP.narrow;
  const x = (share: number): number => 4 + share * (width - 8);
  const y = STRIP.height / 2;
  return (
    <svg class="strip" viewBox={`0 0 ${width} ${STRIP.height}`} aria-hidden="true">
      {nothing !== null && (
        <line class="nothing" x1={x(nothing)} x2={x(nothing)} y1="0" y2={STRIP.height} />
      )}
      <line class="interval" x1={x(strip.low)} x2={x(strip.high)} y1={y} y2={y} />
      <rect
        class={isHeavy ? 'dash' : 'slot'}
        x={x(strip.at) - 3}
        y={y - 3.5}
        width="6"
        height="7"
      />
    </svg>
  );
}

function Pairs({ report, pairs }: { report: Report; pairs: ShownPairs }) {
  const { methods, rows, nothing } = pairs;
  const { heads, method, pairsNote } = report.say.value.comparison;
  return (
    <>
      <Scroller name={heads.pair}>
        <table class="pairs">
          <thead>
            <tr>
              <th scope="col">{heads.pair}</th>
              <th scope="col" class="number">
                {withUnit(heads.difference, report)}
              </th>
              {methods.map((one) => (
                <th key={one} scope="col" class="number">
                  {method[one]}
                </th>
              ))}
              <td />
              <th scope="col">{heads.said}</th>
            </tr>
          </thead>
          <tbody>
            {rows.map(({ pair, difference, limits, said, isApart, strip }) => (
              <tr key={pair}>
                <th scope="row">{pair}</th>
                <td class="number">{difference}</td>
                {limits.map((text, i) => (
                  <td key={methods[i]} class="number">
                    {text}
                  </td>
                ))}
                <td class="strip-cell">
                  <StripOf strip={strip} isHeavy={isApart} nothing={nothing} />
                </td>
                <td class={isApart ? 'told' : 'soft'}>{said}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Scroller>
      <p class="note soft">{pairsNote}</p>
    </>
  );
}

function Tests({ report, part }: Props) {
  const { heads } = report.say.value.comparison;
  const tests = shownTests(part, writingOf(report), report.say.value);
  if (tests.length === 0) return null;
  return (
    <Scroller name={heads.question}>
      <table class="tests">
        <thead>
          <tr>
            <th scope="col">{heads.question}</th>
            <th scope="col">{heads.said}</th>
            <th scope="col">{heads.test}</th>
            <th scope="col" class="number">
              F
            </th>
            <th scope="col" class="number">
              p
            </th>
            <th scope="col">{heads.chance}</th>
          </tr>
        </thead>
        <tbody>
          {tests.map(({ name, question, test, ratio, chance, odds, said }, i) => (
            <tr key={name}>
              <th scope="row">
                <span class={question === tests[i - 1]?.question ? 'sr' : ''}>{question}</span>
              </th>
              <td>{said}</td>
              <td>{test}</td>
              <td class="number">{ratio}</td>
              <td class="number">{chance}</td>
              <td>{odds}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </Scroller>
  );
}

/** The levels as they would compare had the wind been the same: beside what was measured. */
function InOneWind({ report, part, wind }: Props & { readonly wind: SameWind }) {
  const writing = writingOf(report);
  const say = report.say.value;
  const { heads, sameWind } = say.comparison;
  const { labelOf, comparison } = part.answer;
  const { number } = writing.words;
  const [low, high] = wind.exponentLimits.map((one) => number(decimalAt(one, -1)));
  const speed = `${number(decimalAt(wind.windSpeed_mps, -2))}${UNIT_SPACE}m/s`;
  const exponent = number(decimalAt(wind.exponent, -1));
  const chance = shortOdds(wind.p, say);
  return (
    <>
      <p class="same-wind">{sameWind.lead(exponent, `${low} … ${high}`)}</p>
      <Scroller name={sameWind.at(speed)}>
        <table class="levels">
          <thead>
            <tr>
              <th scope="col">{heads.level}</th>
              <th scope="col" class="number">
                {withUnit(sameWind.measured, report)}
              </th>
              <th scope="col" class="number">
                {withUnit(sameWind.at(speed), report)}
              </th>
              <th scope="col" class="number">
                {withUnit(heads.limits, report)}
              </th>
            </tr>
          </thead>
          <tbody>
            {inPlansOrder(part.answer).map(({ level, mean }) => {
              const found = wind.levels.find((one) => one.level === level);
              if (found === undefined || mean === null) return null;
              const limits = { low: found.low_W, high: found.high_W };
              const place = placeFor(found.mean_W, limits, writing.prefix);
              return (
                <tr key={String(level)}>
                  <th scope="row">{labelOf(level)}</th>
                  <td class="number">{powerAt(mean, place, writing)}</td>
                  <td class="number mean">{powerAt(found.mean_W, place, writing)}</td>
                  <td class="number">{limitsAt(limits, place, writing)}</td>
                </tr>
              );
            })}
          </tbody>
        </table>
      </Scroller>
      <p class="note soft">
        {comparison.levels.length > 1 && sameWind.note(chance)}
      </p>
    </>
  );
}

/** The mean of each combination. */
function Together({ report, table }: { report: Report; table: TwoFactors }) {
  const writing = writingOf(report);
  const { first, second, cells } = table;
  return (
    <Scroller name={`${first.name} / ${second.name}`}>
      <table class="together">
        <thead>
          <tr>
            <th scope="col">
              {first.name} / {second.name}
            </th>
            {second.levels.map(({ label }) => (
              <th key={label} scope="col" class="number">
                {label}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {cells.map((row, i) => (
            <tr key={first.levels[i]?.label}>
              <th scope="row">{first.levels[i]?.label}</th>
              {row.map((cell, j) => (
                <td key={second.levels[j]?.label} class="number">
                  {meanOf(cell, writing)}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </Scroller>
  );
}

function meanOf(cell: LevelSummary | null, writing: Writing): string {
  if (cell === null || cell.mean === null) return NO_VALUE;
  return powerAt(cell.mean, placeFor(cell.mean, cell, writing.prefix), writing);
}

/** For students: the readings of each level, and room for its mean. */
export function OwnMeans({ report, part }: Props) {
  const { say, words } = report;
  const { section, comparison, own } = say.value;
  const { settings, labelOf } = part.answer;
  const { prefix } = writingOf(report);
  const readings = (level: string | number): string => {
    const found = settings.filter((one) => one.level === level);
    const texts = found.map(({ power_W, trials }) => {
      const known = trials[0]?.power_W;
      if (power_W === null || known === undefined) return words.value.top.list.didNotTurn;
      const written = writeMeasured({ ...known, value: power_W }, { unit: 'W', prefix });
      return words.value.number(written.value);
    });
    return texts.join('   ');
  };
  return (
    <Section name={section.comparison} class="wide own">
      <p>{own.means}</p>
      <Scroller name={comparison.heads.level}>
        <table class="blanks">
          <thead>
            <tr>
              <th scope="col">{comparison.heads.level}</th>
              <th scope="col">{withUnit(words.value.quantity.power_W, report)}</th>
              <th scope="col">{withUnit(comparison.heads.mean, report)}</th>
              <th scope="col">{withUnit(comparison.heads.difference, report)}</th>
            </tr>
          </thead>
          <tbody>
            {inPlansOrder(part.answer).map(({ level }) => (
              <tr key={String(level)}>
                <th scope="row">{labelOf(level)}</th>
                <td class="readings">{readings(level)}</td>
                <td class="blank" />
                <td class="blank" />
              </tr>
            ))}
          </tbody>
        </table>
      </Scroller>
    </Section>
  );
}
