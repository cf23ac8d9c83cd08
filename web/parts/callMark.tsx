import type { Call } from '../../models/schema/assessment.ts';
import { callWords } from '../format/words.ts';

/** The ink of each call, from outline to solid: an order that survives greyscale and photocopies. */
function ink(call: Call) {
  switch (call) {
    case 'stop':
      return <rect x="1" y="1" width="14" height="14" fill="currentColor" />;
    case 'book':
      return <path d="M1 15V8h14v7z" fill="currentColor" />;
    case 'plan':
      return (
        <path
          d="M1 4l3-3M1 8l7-7M1 12L12 1M2 15L15 2M6 15l9-9M10 15l5-5M14 15l1-1"
          stroke="currentColor"
          stroke-width="1.6"
        />
      );
    case 'watch':
      return <path d="M1 8l7-7M1 15L15 1M8 15l7-7" stroke="currentColor" stroke-width="1" />;
    case 'clear':
      return null;
  }
}

/** A call as its mark and its word. */
export function CallMark({ call, wordless = false }: { call: Call; wordless?: boolean }) {
  return (
    <span class={`call call-${call}`}>
      <svg viewBox="0 0 16 16" aria-hidden="true" width="16" height="16">
        {ink(call)}
        <rect x="1" y="1" width="14" height="14" fill="none" stroke="currentColor" stroke-width="1.4" />
      </svg>
      <span class={wordless ? 'unseen' : undefined}>{callWords[call]}</span>
    </span>
  );
}
