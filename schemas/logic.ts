import { z } from 'zod';
import type { LogicRule } from './logic-names.ts';
import { MemberName } from './names.ts';

const rule =
  'a rule is true, false, a condition name, or exactly one of energised, held, blown, position, not, all, any';

/** When something is so, read inside one device. */
export type Logic = LogicRule;
/** Schema of a rule; see {@link LogicRule}. */
export const Logic: z.ZodType<Logic> = z.lazy(() =>
  z.union(
    [
      z.boolean(),
      MemberName,
      z.strictObject({ energised: MemberName }),
      z.strictObject({ held: MemberName }),
      z.strictObject({ blown: MemberName }),
      z.strictObject({ position: z.union([MemberName, z.array(MemberName).min(1)]) }),
      z.strictObject({ not: Logic }),
      z.strictObject({ all: z.array(Logic).min(1) }),
      z.strictObject({ any: z.array(Logic).min(1) }),
    ],
    { error: () => rule },
  ),
);
