import type { PageState } from '../view/page-state.ts';

/** Folds room and phones, and says while it is folded what others can do now. */
export function NetworkFold({ page }: { page: PageState }) {
  const { isShown, network } = page.roomNetwork;
  const say = page.words.value.network;
  const { doors = [], passes = [] } = network.value ?? {};
  const operators = passes.filter(({ state }) => state === 'held').map(({ name }) => name);
  const isOpen = doors.some((door) => door.isOpen);
  const state = isOpen ? say.isOpen : say.fold;
  return (
    <button
      type="button"
      class={isOpen ? 'network-fold open' : 'network-fold'}
      aria-expanded={isShown.value}
      aria-controls="network"
      onClick={() => (isShown.value = !isShown.value)}
    >
      {operators.length > 0 ? say.operates(operators.join(', ')) : state}
    </button>
  );
}
