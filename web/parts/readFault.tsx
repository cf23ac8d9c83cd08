import type { RequestError } from '../api.ts';
import { Notice } from './notice.tsx';

/** Why a part of a page could not be read. That no server answers is said once, at the top of the page. */
export function ReadFault({ error, again }: { error: RequestError; again: () => void }) {
  if (error.status === 0) return <p class="muted">Nothing can be shown here until the server answers.</p>;
  return <Notice kind="fault" words={error.message} action="Try again" onAction={again} />;
}
