import type { Express } from 'express';
import type { Context } from '../context.ts';
import { approveInterval } from '../services/approveInterval.ts';
import { unitViewOf } from '../services/unitNow.ts';
import { withdrawApprovals } from '../store/approvals.ts';
import { serveEndpoint } from './endpoint.ts';
import { named } from './named.ts';
import { noUnitInService, Problem } from './problem.ts';

/** Intervals longer than the book: approved by a named person on evidence, and withdrawn by one. */
export function approvalRoutes(app: Express, context: Context): void {
  serveEndpoint(app, 'approveInterval', async ({ params, body }) => {
    const result = await approveInterval(context, await context.current(), params.unitNumber, {
      intervalKm: body.intervalKm,
      approvedBy: body.approvedBy,
      note: body.note === undefined || body.note === '' ? null : body.note,
    });
    if ('noUnit' in result) throw noUnitInService(params.unitNumber);
    if ('refusals' in result)
      throw new Problem(
        422,
        'not_supported',
        `A longer interval is not supported for unit ${params.unitNumber}: ${result.refusals.join('; ')}.`,
        { refusals: result.refusals },
      );
    return result.approval;
  });
  serveEndpoint(app, 'withdrawApproval', async ({ params, body }) => {
    const store = await context.current();
    const view = await unitViewOf(context, store, params.unitNumber);
    if (view === null) throw noUnitInService(params.unitNumber);
    const by = named(body.withdrawnBy, 'withdrawnBy');
    const on = await context.asOf(store);
    return { withdrawn: withdrawApprovals(store, view.history.unit.unitNumber, by, on) };
  });
}
