/** Passes for the operator's role: making one, who has one, taking one back. */
import { PASS_NAME_LENGTH, type Network, type Pass } from '#core/network.ts';
import type { PageState } from '../view/page-state.ts';
import { QrCode } from './qr-code.tsx';
import { urlAt } from './room-network.ts';

interface PassPanelProps {
  readonly page: PageState;
  readonly network: Network;
}

export function PassPanel({ page, network }: PassPanelProps) {
  const { roomNetwork, words } = page;
  const say = words.value.network.pass;
  const usual = say.usual(network.passes.length + 1);
  return (
    <div class="passes">
      <h2>{say.heading}</h2>
      <p class="soft">{say.lead}</p>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          const name = roomNetwork.name.value.trim() || usual;
          roomNetwork.name.value = '';
          void roomNetwork.setPass({ want: 'offer', name });
        }}
      >
        <label>
          {say.name}{' '}
          <input
            type="text"
            name="pass"
            maxLength={PASS_NAME_LENGTH}
            placeholder={usual}
            value={roomNetwork.name.value}
            onInput={(event) => (roomNetwork.name.value = event.currentTarget.value)}
          />
        </label>
        <button type="submit" class="strong">
          {say.make}
        </button>
      </form>
      <ul>
        {network.passes.map((pass) => (
          <PassRow key={pass.id} page={page} pass={pass} />
        ))}
      </ul>
      <Offered page={page} network={network} />
    </div>
  );
}

function PassRow({ page, pass }: { page: PageState; pass: Pass }) {
  const { id, name, state, heldBy, expiresIn_s } = pass;
  const say = page.words.value.network.pass;
  const minutes = Math.ceil((expiresIn_s ?? 0) / 60);
  return (
    <li data-pass={id} class={state}>
      <b>{name}</b>{' '}
      <span class="soft">{state === 'held' ? say.held(heldBy ?? '') : say.offered(minutes)}</span>
      <button
        type="button"
        class="underlined"
        onClick={() => void page.roomNetwork.setPass({ want: 'take-back', id })}
      >
        {say.takeBack(name)}
      </button>
    </li>
  );
}

/** The pass made last, to be taken up at the first address that is open. */
function Offered({ page, network }: PassPanelProps) {
  const offer = page.roomNetwork.offer.value;
  const door = network.doors.find(({ isOpen, isThere }) => isOpen && isThere);
  if (offer === null || door === undefined) return null;
  const say = page.words.value.network.pass;
  const url = urlAt(door.address, network.port);
  return (
    <figure class="offered">
      <QrCode text={`${url}/follow#pass=${offer.secret}`} name={say.scan} />
      <figcaption>
        <b>{say.scan}</b>
        <span>{say.orType(url.replace('http://', ''))}</span>
        <span class="code">{`${offer.code.slice(0, 3)}\u2002${offer.code.slice(3)}`}</span>
        <span>{say.caution}</span>
      </figcaption>
    </figure>
  );
}
