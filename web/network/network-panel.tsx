/** Room and phones: this computer's addresses, each with what leads to it. Unfolds below the band. */
import type { Door } from '#core/network.ts';
import type { PageState } from '../view/page-state.ts';
import { Unfolded } from '../view/unfolded.tsx';
import { PassPanel } from './pass-panel.tsx';
import { QrCode } from './qr-code.tsx';
import { urlAt } from './room-network.ts';

export function NetworkPanel({ page }: { page: PageState }) {
  const { isShown, network } = page.roomNetwork;
  const say = page.words.value.network;
  if (!isShown.value || network.value === null) return null;
  const { doors } = network.value;
  const isOpen = doors.some((door) => door.isOpen);
  return (
    <Unfolded class="network-panel" id="network" label={say.heading}>
      <div class="doors">
        <p>{doors.length === 0 ? say.noAddress : say.lead}</p>
        {doors.map((door) => (
          <DoorRow key={door.address} page={page} door={door} />
        ))}
        <ul class="soft">
          {say.help.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      </div>
      {isOpen && <PassPanel page={page} network={network.value} />}
    </Unfolded>
  );
}

function DoorRow({ page, door }: { page: PageState; door: Door }) {
  const { roomNetwork, words } = page;
  const say = words.value.network;
  const { address, card, kind, isOpen, isThere, devices } = door;
  const port = roomNetwork.network.value?.port ?? 0;
  const url = urlAt(address, port);
  return (
    <div class={isOpen ? 'door open' : 'door'} data-address={address}>
      <p class="door-line">
        <b class="address">{url.replace('http://', '')}</b>
        <button
          type="button"
          class={isOpen ? 'underlined' : 'strong'}
          aria-label={isOpen ? say.closeAt(address) : say.openAt(address)}
          onClick={() => void roomNetwork.setDoor({ want: isOpen ? 'close' : 'open', address })}
        >
          {isOpen ? say.close : say.open}
        </button>
        <span class="soft">
          {card} · {isThere ? say.kind[kind] : say.lost}
          {isOpen && ` · ${say.devices(devices)}`}
        </span>
      </p>
      {isOpen && isThere && (
        <div class="ways">
          <Way name={say.phones} text={`${url}/follow`} />
          <Way name={say.projector} text={`${url}/room`} />
        </div>
      )}
    </div>
  );
}

function Way({ name, text }: { name: string; text: string }) {
  return (
    <figure>
      <QrCode text={text} name={`${name}: ${text}`} />
      <figcaption>
        <b>{name}</b>
        <span class="soft">{text.replace('http://', '')}</span>
      </figcaption>
    </figure>
  );
}
