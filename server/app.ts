import express, { type Express } from 'express';
import helmet from 'helmet';
import type { Context } from './context.ts';
import { Background } from './services/background.ts';
import { approvalRoutes } from './routes/approvals.ts';
import { assessmentRoutes } from './routes/assessment.ts';
import { cardRoutes } from './routes/cards.ts';
import { columnMapRoutes } from './routes/columnMaps.ts';
import { deskRoutes } from './routes/desk.ts';
import { directIntakeRoutes } from './routes/directIntake.ts';
import { hindcastRoutes } from './routes/hindcast.ts';
import { heldRoutes } from './routes/held.ts';
import { idempotency } from './routes/idempotency.ts';
import { intakeRoutes } from './routes/intake.ts';
import { methodRoutes } from './routes/method.ts';
import { moneyRoutes } from './routes/money.ts';
import { openApiDocument } from './routes/openapi.ts';
import { photoRoutes } from './routes/photos.ts';
import { planRoutes } from './routes/plan.ts';
import { Problem, problemHandler, sendProblem } from './routes/problem.ts';
import { sameOrigin } from './routes/sameOrigin.ts';
import { settingsRoutes } from './routes/settings.ts';
import { shopRoutes } from './routes/shop.ts';
import { stateRoutes } from './routes/state.ts';
import { templateRoutes } from './routes/templates.ts';
import { unitRoutes } from './routes/units.ts';
import { uploadRoutes } from './routes/uploads.ts';
import { writeTurn } from './routes/writeTurn.ts';
import { workTextRoutes } from './routes/workTexts.ts';

/**
 * The web application: endpoints under /api, pages for everything else.
 * @param hosts names under which it may be reached
 * @param log writes one line
 */
export function makeApp(
  context: Context,
  hosts: readonly string[],
  log: (line: string) => void,
  background = new Background(context, { refits: false }),
): Express {
  const app = express();
  app.disable('x-powered-by');
  app.use(
    helmet({
      contentSecurityPolicy: {
        useDefaults: false,
        directives: {
          defaultSrc: ["'self'"],
          imgSrc: ["'self'", 'data:', 'blob:'],
          styleSrc: ["'self'", "'unsafe-inline'"],
          frameAncestors: ["'none'"],
          baseUri: ["'none'"],
          formAction: ["'self'"],
        },
      },
      strictTransportSecurity: false,
    }),
  );
  app.use(sameOrigin(hosts));
  uploadRoutes(app, context);
  const once = idempotency(context, log);
  const turn = writeTurn(context);
  directIntakeRoutes(app, context, [once, turn]);
  app.use(express.json({ limit: '5mb' }));
  app.use(once, turn);
  const document = openApiDocument();
  app.get('/api/openapi.json', (_request, response) => response.json(document));
  hindcastRoutes(app, context, background);
  stateRoutes(app, context);
  assessmentRoutes(app, context);
  unitRoutes(app, context);
  approvalRoutes(app, context);
  deskRoutes(app, context);
  shopRoutes(app, context);
  cardRoutes(app, context);
  planRoutes(app, context, background);
  photoRoutes(app, context);
  intakeRoutes(app, context);
  moneyRoutes(app, context, background);
  templateRoutes(app);
  columnMapRoutes(app, context);
  heldRoutes(app, context);
  workTextRoutes(app, context);
  methodRoutes(app, context);
  settingsRoutes(app, context);
  app.use('/api', (request, response) =>
    sendProblem(response, new Problem(404, 'no_such_address', `There is nothing at ${request.originalUrl}.`)),
  );
  app.use(
    '/assets',
    express.static(`${context.paths.web}/assets`, { immutable: true, maxAge: '1y', fallthrough: false }),
  );
  app.use(express.static(context.paths.web, { index: false }));
  app.get('/{*page}', (_request, response) => response.sendFile('index.html', { root: context.paths.web }));
  app.use(problemHandler(log));
  return app;
}
