import type { CovariateSpec } from '../../models/reliability/fleet/covariateSpec.ts';
import type { Episode, Segment } from '../../models/reliability/fleet/episode.ts';
import { fitFleet } from '../../models/reliability/fleet/fitFleet.ts';
import { forecastFleet } from '../../models/reliability/fleet/forecastFleet.ts';
import { dailyUseOf, futureUse } from '../../models/reliability/fleet/futureUse.ts';
import { normalDraw, seededRandom } from '../../models/numeric/random.ts';
import { invented } from '../models/reliability/fleet/inventedPriors.ts';
import { processorSeconds } from './processorSeconds.ts';

const unitCount = 10_000;
const covariates: CovariateSpec[] = [
  ...['oil stress', 'sludge', 'overrun', 'starts'].map((name): CovariateSpec => ({
    name,
    priorMean: 0.5,
    priorSd: 0.4,
    kind: 'clock',
    direction: 1,
  })),
  ...['correlation code', 'phaser code', 'rattle', 'screen', 'phase', 'cover', 'failed before'].map(
    (name): CovariateSpec => ({ name, priorMean: 0.8, priorSd: 0.6, kind: 'evidence', direction: 1 }),
  ),
];

/** Ten years of drains, about 40 stretches a unit, each with covariates of its own and codes that come and go. */
function invented10000(failureShare: number): Episode[] {
  const random = seededRandom(77);
  return Array.from({ length: unitCount }, (_, i): Episode => {
    const stress = 0.3 * normalDraw(random);
    const evidence = covariates.map(() => 0);
    const perDay = 60 * Math.exp(0.4 * normalDraw(random));
    const life = 12_000 * Math.exp(-stress) * (-Math.log(1 - random())) ** 0.4 * (0.06 / failureShare) ** 0.4;
    const segments: Segment[] = [];
    let hours = 0;
    while (segments.length < 40 && hours < life) {
      if (random() < 0.02) evidence[4 + Math.floor(7 * random())] = random() < 0.5 ? 1 : 0;
      const engineHours = perDay * 2.2 * Math.exp(0.2 * normalDraw(random));
      hours += engineHours;
      segments.push({
        days: 90,
        distanceKm: engineHours * 38,
        engineHours,
        idleHours: engineHours * 0.3 * random(),
        covariates: covariates.map((spec, k) =>
          spec.kind === 'clock' ? stress + 0.2 * normalDraw(random) : evidence[k],
        ),
      });
    }
    return {
      unitNumber: `U${i}`,
      family: `family ${i % 12}`,
      segments,
      end: hours >= life ? 'failed' : 'running',
      entry:
        i % 5 === 0
          ? { kind: 'used', days: 700, distanceKm: 60_000, engineHours: 1500, idleHours: 400, logSd: 0.2 }
          : 'new',
    };
  });
}

/** Refit and forecast of a fleet of 10 000 units on one core. */
export async function run(): Promise<{ name: string; figure: number; unit: string; target: string }[]> {
  const results: { name: string; figure: number; unit: string; target: string }[] = [];
  for (const [name, share] of [
    ['many failures (Laplace)', 0.06],
    ['few failures (resampled)', 0.00008],
  ] as const) {
    const episodes = invented10000(share);
    const started = processorSeconds();
    const fit = fitFleet({
      episodes,
      covariates,
      priors: invented,
      random: seededRandom(1),
      versionText: 'bench',
    });
    const fitted = processorSeconds();
    const running = episodes.filter((episode) => episode.end === 'running');
    const use = dailyUseOf(running);
    const requests = running.map((episode) => ({ episode, ...futureUse(episode, use, 365, covariates) }));
    forecastFleet(fit, requests, seededRandom(2));
    const done = processorSeconds();
    results.push(
      {
        name: `refit of 10 000 units, ${name}, ${fit.failures} failures`,
        figure: fitted - started,
        unit: 's',
        target: 'below 10',
      },
      {
        name: `forecast of ${running.length} units, ${name}`,
        figure: done - fitted,
        unit: 's',
        target: 'below 10',
      },
    );
  }
  return results;
}
