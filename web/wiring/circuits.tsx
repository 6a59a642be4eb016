/** Small drawings of the principle, with the values as typed. IEC 60617 symbols. */
import type { ComponentChildren } from 'preact';
import { useSpoken } from './speech.ts';

interface DrawingProps {
  readonly label: string;
  readonly children: ComponentChildren;
}

function Drawing({ label, children }: DrawingProps) {
  return (
    <svg class="circuit" viewBox="0 0 440 220" role="img" aria-label={label}>
      {children}
    </svg>
  );
}

interface At {
  readonly x: number;
  readonly y: number;
}

/** Upright, 48 high, its upper end at y. */
function Resistor({ x, y, name, value }: At & { name: string; value: string }) {
  return (
    <>
      <rect x={x - 8} y={y} width="16" height="48" />
      <text x={x + 16} y={y + 20}>
        {name}
      </text>
      <text x={x + 16} y={y + 38} class="value">
        {value}
      </text>
    </>
  );
}

function Generator({ x, y }: At) {
  return (
    <>
      <circle cx={x} cy={y} r="18" />
      <text x={x} y={y + 5} class="middle">
        G
      </text>
      <text x={x + 10} y={y - 24}>
        +
      </text>
      <text x={x + 10} y={y + 36}>
        −
      </text>
    </>
  );
}

function Lamp({ x, y }: At) {
  return (
    <>
      <circle cx={x} cy={y} r="16" />
      <path d={`M${x - 11} ${y - 11}l22 22M${x + 11} ${y - 11}l-22 22`} />
    </>
  );
}

function Dot({ x, y }: At) {
  return <circle class="dot" cx={x} cy={y} r="3.5" />;
}

function Ground({ x, y }: At) {
  return (
    <>
      <path d={`M${x} ${y}v10M${x - 12} ${y + 10}h24M${x - 7} ${y + 15}h14M${x - 2} ${y + 20}h4`} />
      <text x={x + 20} y={y + 18}>
        {useSpoken().say.circuit.ground}
      </text>
    </>
  );
}

function Pin({ x, y, name }: At & { name: string }) {
  return (
    <>
      <path d={`M${x} ${y}l10 -13h48v26h-48z`} />
      <text x={x + 34} y={y + 5} class="middle strong">
        {name}
      </text>
    </>
  );
}

/** Generator and lamp side by side between two rails, as every drawing begins. */
function Rig({ lampEnd }: { lampEnd: number }) {
  return (
    <>
      <path d={`M40 92V20H150V${(lampEnd + 20) / 2 - 16}M40 128V180`} />
      <path d={`M150 ${(lampEnd + 20) / 2 + 16}V${lampEnd}`} />
      <Generator x={40} y={110} />
      <Lamp x={150} y={(lampEnd + 20) / 2} />
    </>
  );
}

export function DividerCircuit({ upper, lower }: { upper: string; lower: string }) {
  const say = useSpoken().say.circuit;
  return (
    <Drawing label={say.divider(upper, lower)}>
      <Rig lampEnd={180} />
      <path d="M150 20H240V34M240 82V118M240 166V180M40 180H240M240 100H360" />
      <Resistor x={240} y={34} name={say.upper} value={upper} />
      <Resistor x={240} y={118} name={say.lower} value={lower} />
      <Dot x={150} y={20} />
      <Dot x={240} y={100} />
      <Dot x={150} y={180} />
      <Pin x={360} y={100} name="A0" />
      <Ground x={240} y={180} />
    </Drawing>
  );
}

export function ShuntCircuit({ shunt, gain }: { shunt: string; gain: string }) {
  const say = useSpoken().say.circuit;
  return (
    <Drawing label={say.amplified(shunt, gain)}>
      <Rig lampEnd={118} />
      <path d="M150 118V124M150 172V180M40 180H150M150 110H270" />
      <Resistor x={150} y={124} name={say.shunt} value={shunt} />
      <path d="M270 78V142L334 110ZM334 110H360" />
      <text x={276} y={115} class="value">
        {gain}
      </text>
      <Dot x={150} y={110} />
      <Pin x={360} y={110} name="A1" />
      <Ground x={150} y={180} />
    </Drawing>
  );
}

export function MonitorCircuit({ shunt }: { shunt: string }) {
  const say = useSpoken().say.circuit;
  return (
    <Drawing label={say.monitored(shunt)}>
      <path d="M40 92V20H230M40 128V180H290M230 80H130V104M130 136V180" />
      <Generator x={40} y={110} />
      <Lamp x={130} y={120} />
      <rect x="196" y="8" width="160" height="126" />
      <path d="M230 20H260V26M260 74V80H230M290 134V180M356 50H372M356 90H372" />
      <Resistor x={260} y={26} name={say.shunt} value={shunt} />
      <text x={202} y={36}>
        IN+
      </text>
      <text x={202} y={98}>
        IN−
      </text>
      <text x={276} y={120} class="middle strong">
        {say.monitor}
      </text>
      <Pin x={372} y={50} name="SDA" />
      <Pin x={372} y={90} name="SCL" />
      <Dot x={130} y={180} />
      <Ground x={290} y={180} />
    </Drawing>
  );
}
