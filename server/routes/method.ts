import type { Express } from 'express';
import { modelVersion } from '../../models/assessment/modelVersion.ts';
import { cautions } from '../../models/assessment/cautions.ts';
import { sources } from '../catalog.ts';
import type { Context } from '../context.ts';
import { serveEndpoint } from './endpoint.ts';

/** Every coefficient with unit, source and kind. */
export function methodRoutes(app: Express, context: Context): void {
  serveEndpoint(app, 'method', async () => ({
    modelVersion,
    groups: context.catalog.map((file) => ({ title: file.title, coefficients: file.coefficients })),
    sources: [...sources],
    cautions: cautions.map((caution) => caution.words),
  }));
}
