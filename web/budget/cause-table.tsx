/** The causes of an uncertainty, the largest first, each with its share. */
import type { ShownCause } from '../model/budget.ts';
import type { BudgetWords } from '../words/budget-words.ts';

export function CauseTable({ causes, say }: { causes: readonly ShownCause[]; say: BudgetWords }) {
  const { heads } = say;
  return (
    <table class="budget-causes">
      <thead class="soft">
        <tr>
          <th scope="col">{heads.cause}</th>
          <th scope="col" class="wide">
            {heads.of}
          </th>
          <th scope="col" class="wide number">
            {heads.limits}
          </th>
          <th scope="col" class="number">
            {heads.adds}
          </th>
          <th scope="col" class="number">
            {heads.share}
          </th>
          <td />
          <th scope="col" class="wide">
            {heads.whose}
          </th>
        </tr>
      </thead>
      <tbody>
        {causes.map((row) => (
          <tr key={row.key}>
            <th scope="row">{row.cause}</th>
            <td class="wide">{row.of}</td>
            <td class="wide number">{row.limits}</td>
            <td class="number">{row.adds}</td>
            <td class="number">{row.percent}</td>
            <td class="bar-cell">
              <ShareBar share={row.share} isCommon={row.whose !== 'alone'} />
            </td>
            <td class="wide">{row.whose === null ? '' : say.whose[row.whose]}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

const BAR = 100;

/** What stands from trial to trial is heavy; what is new in each is an outline. */
function ShareBar({ share, isCommon }: { share: number; isCommon: boolean }) {
  return (
    <svg
      class={isCommon ? 'share-bar' : 'share-bar alone'}
      viewBox={`0 0 ${BAR} 10`}
      preserveAspectRatio="none"
      aria-hidden="true"
    >
      <rect x="0" y="1" width={Math.max(share * BAR, 0.5)} height="8" />
    </svg>
  );
}
