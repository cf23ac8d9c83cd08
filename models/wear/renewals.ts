import type { Coefficients } from '../schema/coefficient.ts';
import { dayFromIso } from '../schema/day.ts';
import type { ServiceEvent, UnitHistory } from '../schema/history.ts';
import type { WorkKind } from '../schema/service.ts';
import { codeText } from './faultCode.ts';
import type { FaultCodes } from './faultCode.ts';
import type { Renewal } from './states.ts';

const partOfWork: Partial<Record<WorkKind, Renewal['part']>> = {
  timing_set: 'timing_set',
  phaser: 'phaser',
  oil_control_solenoid: 'oil_control_solenoid',
  tensioner_guides: 'tensioner_guides',
  belt: 'belt',
  engine: 'engine',
  screen_cleaned: 'screen',
};

const failureWords =
  /\b(fail\w*|broke\w*|snapp\w*|jump\w*|skipp\w*|slipp\w*|seiz\w*|no[- ]start|won'?t start|stall\w*|tow(ed)? in|breakdown|bent valves?|rattl\w*|nois[ey]\w*|slack|stretch\w*|unplanned|emergency|road ?call)\b/i;
const plannedWords =
  /\b(planned|prevent\w*|scheduled|proactive\w*|campaign|recall|due|interval|precaution\w*|while (in )?there|upgrade)\b/i;

/** The bank in the model's own form: `1`, `2`, or null for the whole engine or not known. */
export function bankOf(raw: string | null): string | null {
  if (raw === null) return null;
  const text = raw.trim().toLowerCase();
  if (/^(b|bank)?\s*-?1$|^l(eft)?( bank)?$/.test(text)) return '1';
  if (/^(b|bank)?\s*-?2$|^r(ight)?( bank)?$/.test(text)) return '2';
  return null;
}

/**
 * Every renewal and cleaning of a unit, in order of day.
 * @param asOfDay what is later is left out
 */
export function renewalsOf(
  history: UnitHistory,
  asOfDay: number,
  faultCodes: FaultCodes,
  coefficients: Coefficients,
): readonly Renewal[] {
  const renewals: Renewal[] = [];
  for (const service of history.services) {
    const day = dayFromIso(service.servicedOn);
    // a text that may mean something else waits on the list of texts to teach
    if (day > asOfDay || service.read.confidence < coefficients['evidence.renewal_confidence']) continue;
    for (const work of service.read.works) {
      const part = partOfWork[work];
      if (part === undefined) continue;
      renewals.push({
        day,
        part,
        outcome: service.outcome ?? 'unknown',
        failureChance: failureChanceOf(service, day, part, history, faultCodes, coefficients),
        bank: bankOf(service.read.bank) ?? bankOf(service.bank),
        recordId: service.source.id,
      });
    }
  }
  return renewals.sort((a, b) => a.day - b.day || (a.recordId ?? 0) - (b.recordId ?? 0));
}

/**
 * Chance that a renewal was a failure.
 * Formula: 1 or 0 where the outcome is recorded; else the logistic of base odds, the part's own (an engine is hardly
 * ever renewed before it fails, a belt nearly always), and weights of codes, findings and words around it. Source: engineering judgement (catalog evidence.failure_odds_*).
 */
function failureChanceOf(
  service: ServiceEvent,
  day: number,
  part: Renewal['part'],
  history: UnitHistory,
  faultCodes: FaultCodes,
  coefficients: Coefficients,
): number {
  if (service.outcome === 'failed') return 1;
  if (service.outcome === 'planned' || part === 'screen') return 0;
  const before = coefficients['evidence.failure_odds_days'];
  const near = (on: string): boolean => {
    const age = day - dayFromIso(on);
    return age >= -3 && age <= before;
  };
  let logOdds =
    coefficients['evidence.failure_odds_base'] + coefficients[`evidence.failure_odds_part.${part}`];
  const groups = history.codes
    .filter((entry) => near(entry.seenOn))
    .map((entry) => faultCodes.get(codeText(entry.code) ?? '')?.group);
  if (groups.some((group) => group === 'chain_phase' || group === 'phaser' || group === 'pressure_low'))
    logOdds += coefficients['evidence.failure_odds_code'];
  const found = history.findings.filter((finding) => near(finding.foundOn));
  if (
    found.some(
      (finding) => finding.finding === 'start_rattle_s' || finding.finding === 'phase_deviation_crank_deg',
    )
  )
    logOdds += coefficients['evidence.failure_odds_finding'];
  const words = `${service.work} ${service.note ?? ''}`;
  if (failureWords.test(words)) logOdds += coefficients['evidence.failure_odds_words'];
  if (plannedWords.test(words)) logOdds -= coefficients['evidence.failure_odds_words'];
  if (/warrant/i.test(service.paidBy ?? '')) logOdds += coefficients['evidence.failure_odds_warranty'];
  return 1 / (1 + Math.exp(-logOdds));
}

/**
 * Whether a disposal is an engine or timing failure by its recorded reason.
 * @returns the failure as a renewal of the engine on the day of disposal, or null
 */
export function disposalFailureOf(history: UnitHistory, asOfDay: number): Renewal | null {
  const { disposedOn, disposalReason, source } = history.unit;
  if (disposedOn === null || disposalReason === null) return null;
  const day = dayFromIso(disposedOn);
  if (day > asOfDay) return null;
  const part = /\b(engine|motor|timing|chain|belt|phaser|cam)\b/i.test(disposalReason);
  const failed =
    /\b(fail\w*|broke\w*|blew|blown|seiz\w*|snapp\w*|jump\w*|destroyed|ruined|spun|knock\w*|damage\w*)\b/i.test(
      disposalReason,
    );
  if (!part || !failed) return null;
  return { day, part: 'engine', outcome: 'failed', failureChance: 1, bank: null, recordId: source.id };
}
