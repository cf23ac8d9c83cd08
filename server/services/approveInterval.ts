import { checkExtension, namesSomeone } from '../../models/assessment/extensionApproval.ts';
import type { IntervalApproval } from '../../models/schema/sampleView.ts';
import type { Context } from '../context.ts';
import { fleetModels } from '../fleetModels.ts';
import { addApproval } from '../store/approvals.ts';
import type { Store } from '../store/openStore.ts';
import { unitViewOf } from './unitNow.ts';

/** What is asked for. */
export interface ApprovalRequest {
  readonly intervalKm: number;
  readonly approvedBy: string;
  readonly note: string | null;
}

export type ApprovalResult =
  | { readonly approval: IntervalApproval }
  | { readonly noUnit: true }
  | { readonly refusals: readonly string[] };

/** Records an approval when the unit's samples, inspection and meters support it; else says what stands against it. */
export async function approveInterval(
  context: Context,
  store: Store,
  unitNumber: string,
  { intervalKm, approvedBy, note }: ApprovalRequest,
): Promise<ApprovalResult> {
  const view = await unitViewOf(context, store, unitNumber);
  if (view === null) return { noUnit: true };
  if (!namesSomeone(approvedBy))
    return { refusals: [`approvedBy must be the name of a person, got "${approvedBy}"`] };
  const { coefficients, condemningLimits } = fleetModels(context.coefficients);
  const check = checkExtension(view, intervalKm, condemningLimits, coefficients);
  if (check.refusals.length > 0) return { refusals: check.refusals };
  return {
    approval: addApproval(store, {
      unitNumber: view.history.unit.unitNumber,
      intervalKm,
      approvedBy,
      approvedOn: await context.asOf(store),
      note,
      evidence: [...check.evidence],
      madeAt: context.now(),
    }),
  };
}
