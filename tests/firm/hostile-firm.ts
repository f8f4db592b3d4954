import { HOSTILE, spotsOfText, withValue } from './damage.ts';
import { FIXTURE_FIRM } from './fixture-firm.ts';
import { checkFirm, FIXTURE, said } from './memory.ts';

/** Markup within the length that a firm's name may have. */
const SHORT = '"><script>owned=9</script><b onclick=x>';

/**
 * A firm in order with markup and programs in every text that can hold them, and how many
 * those are.
 * @throws Error with its problems, should it not be in order
 */
export function hostileFirm(): {
  readonly files: Readonly<Record<string, string>>;
  readonly places: number;
} {
  let files: Readonly<Record<string, string>> = FIXTURE_FIRM;
  const spots = spotsOfText(FIXTURE_FIRM);
  // Numbered, so that titles stay apart.
  const hostile = (i: number) => `${i} ${spots[i]!.file === 'firm.yaml' ? SHORT : HOSTILE}`;
  const open = spots.flatMap((spot, i) =>
    checkFirm(withValue(spot, hostile(i)), FIXTURE).problems.length === 0 ? [i] : [],
  );
  for (const i of open) {
    const { file, path } = spots[i]!;
    const now = spotsOfText({ [file]: files[file]! }).find(
      (one) => one.file === file && one.path.join() === path.join(),
    )!;
    files = { ...files, [file]: String(withValue(now, hostile(i))[file]) };
  }
  const { problems } = checkFirm(files, FIXTURE);
  if (problems.length > 0) throw new Error(said({ problems }).join('\n'));
  return { files, places: open.length };
}
