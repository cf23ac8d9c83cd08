import type { Vocabulary } from '../../../models/intake/synonyms.ts';
import type { IntakeWriter } from '../../store/intakeWriter.ts';
import type { Store } from '../../store/openStore.ts';

export function settleMeters(
  _store: Store,
  _writer: IntakeWriter,
  _vocabulary: Vocabulary,
  _touched: ReadonlySet<string>,
  _today: string,
): void {}
