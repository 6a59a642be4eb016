/** Current and voltage by an I²C monitor. */
import { MonitorDesignSchema } from '#core/instrument/designs.ts';
import { MONITOR_RANGES, monitorCurrentChannel } from '#core/instrument/monitor.ts';
import { monitorSettings } from '#core/instrument/sketch-settings.ts';
import { MonitorCircuit } from './circuits.tsx';
import { Field } from './field.tsx';
import { Group, NothingYet, Panel, parsed, type PanelProps } from './panel.tsx';
import { Causes, LargestReading, SaidOf, SketchSettings } from './result.tsx';
import { useSpoken } from './speech.ts';
import { UseHere } from './use-here.tsx';
import { monitorWords } from './words.ts';

export function MonitorPanel({ form }: PanelProps) {
  const design = parsed(MonitorDesignSchema, form);
  const spoken = useSpoken();
  const { say } = spoken;
  const typed = (
    <>
      <MonitorCircuit shunt={`${form.texts.monitorShunt.value} Ω`} />
      <Group title={say.form.monitor}>
        <Field form={form} name="monitorShunt" tolerance="monitorShuntTolerance" />
        <Field form={form} name="monitorGainTolerance" />
        <div class="field-row">
          <span id="range-label">{say.form.range}</span>
          <span class="choice" role="group" aria-labelledby="range-label">
            {Object.keys(MONITOR_RANGES).map((range) => (
              <button
                type="button"
                key={range}
                aria-pressed={form.monitorRange.value === range}
                onClick={() => (form.monitorRange.value = range)}
              >
                {`±${range} mV`}
              </button>
            ))}
          </span>
        </div>
      </Group>
      <Group title={say.form.rig}>
        <Field form={form} name="largestCurrent" />
      </Group>
    </>
  );
  if (design === null) return <Panel typed={typed} result={<NothingYet />} />;
  const current = monitorCurrentChannel(design.monitor);
  const result = (
    <>
      <LargestReading channel={current} />
      <SaidOf said={monitorWords(design, spoken)} />
      <Causes gain={current.gain} />
      <SketchSettings text={monitorSettings(design.monitor)} />
      <UseHere
        canBeZeroed
        hint={say.use.partsHint}
        told={(isZeroed) => ({
          voltage: { kind: 'monitor', isZeroed: false, monitor: design.monitor },
          current: { kind: 'monitor', isZeroed, monitor: design.monitor },
        })}
      />
    </>
  );
  return <Panel typed={typed} result={result} />;
}
