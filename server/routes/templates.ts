import type { Express } from 'express';
import { recordKinds } from '../../models/schema/kinds.ts';
import { templateFile, templateForms } from '../files/templateFile.ts';
import { Problem } from './problem.ts';

const types = {
  csv: 'text/csv; charset=utf-8',
  xlsx: 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet',
} as const;

/** Empty tables of each kind, to fill in. */
export function templateRoutes(app: Express): void {
  app.get('/api/templates/:file', (request, response) => {
    const [stem, ending, ...more] = request.params.file.split('.');
    const kind = recordKinds.find((name) => name === stem);
    const form = templateForms.find((name) => name === ending);
    if (kind === undefined || form === undefined || more.length > 0)
      throw new Problem(
        404,
        'no_template',
        `There is no template ${request.params.file}; there are ${recordKinds.join(', ')}, each as .csv and .xlsx.`,
      );
    response.type(types[form]).attachment(`${kind}.${form}`).send(templateFile(kind, form));
  });
}
