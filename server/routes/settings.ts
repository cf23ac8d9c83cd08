import type { Express } from 'express';
import type { Context } from '../context.ts';
import { loadSettings, saveSettings } from '../store/settings.ts';
import { serveEndpoint } from './endpoint.ts';

/** The shop's rules and measures. */
export function settingsRoutes(app: Express, context: Context): void {
  serveEndpoint(app, 'settings', async () => loadSettings(await context.current()));
  serveEndpoint(app, 'saveSettings', async ({ request }) => {
    // only what was sent changes: defaults filled in by the schema would reset the rest
    const sent = request.body as Record<string, unknown>;
    return saveSettings(await context.current(), sent);
  });
}
