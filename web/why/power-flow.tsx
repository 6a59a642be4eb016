/**
 * Where the power goes, from the wind to the load, as bars that get shorter: what is left stands at
 * the left, what is lost at the end of the bar above. Below the rotor all is drawn larger, for the
 * rotor takes little of the wind.
 */
import type { WhyLevel } from '#core/experiment/why/why-level.ts';
import { SavePicture } from '../view/save-picture.tsx';
import { FlowPicture } from './flow-picture.tsx';
import { partsOf, rowText, type FlowPart, type FlowRow } from './flow-parts.ts';
import type { WhyPageState } from './state.ts';

const LONG = 1000;

export function PowerFlow({ page, level }: { page: WhyPageState; level: WhyLevel }) {
  const { flow, section } = page.say.value;
  const [wind, rotor] = partsOf(level);
  return (
    <div class="power-flow">
      <p class="flow-level">{flow.at(level.label)}</p>
      <Rows page={page} part={wind} wind_W={level.point.powerFlow.wind_W} />
      <p class="larger soft">{flow.larger}</p>
      <Rows page={page} part={rotor} wind_W={level.point.powerFlow.wind_W} />
      {level.isFar && <p>{flow.apart}</p>}
      <SavePicture
        words={page.words.value}
        title={section.flow}
        name="power-flow"
        draw={() => <FlowPicture page={page} level={level} />}
      />
    </div>
  );
}

interface RowsProps {
  readonly page: WhyPageState;
  readonly part: FlowPart;
  readonly wind_W: number;
}

function Rows({ page, part: { rows, whole_W }, wind_W }: RowsProps) {
  return (
    <ul class="flow-rows">
      {rows.map((row) => (
        <li key={row.name} class={row.name === 'measured' ? 'measured' : ''} data-row={row.name}>
          <span class="flow-name">{page.say.value.flow.row[row.name]}</span>
          <Bar row={row} whole_W={whole_W} />
          <Numbers page={page} row={row} wind_W={wind_W} />
        </li>
      ))}
    </ul>
  );
}

function Bar({ row: { from_W, to_W, band, isLeft }, whole_W }: { row: FlowRow; whole_W: number }) {
  const x = (power_W: number): number => (LONG * Math.max(power_W, 0)) / whole_W;
  return (
    <svg class="bar" viewBox={`0 0 ${LONG} 20`} preserveAspectRatio="none" aria-hidden="true">
      <rect
        class={isLeft ? 'kept' : 'lost'}
        x={x(from_W)}
        width={Math.max(x(to_W) - x(from_W), 1)}
        y="2"
        height="16"
      />
      {isLeft && band !== null && to_W < whole_W && <path class="reach" d={`M${x(band.low_W)} 10H${x(band.high_W)}`} />}
    </svg>
  );
}

function Numbers({ page, row, wind_W }: { page: WhyPageState; row: FlowRow; wind_W: number }) {
  const { power, ofWind, band, kind } = rowText(page, row, wind_W);
  return (
    <span class="flow-numbers">
      <b>{power}</b>
      {ofWind !== null && <span>{ofWind}</span>}
      {band !== null && <span class="band soft">{band}</span>}
      <span class="kind soft">{kind}</span>
    </span>
  );
}
