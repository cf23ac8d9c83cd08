/** Turns of phrase about what was asked for, quoted, refused or ordered. */
export const asked: readonly (readonly [RegExp, string])[] = [
  // A heading with its reason: "Declined by dept head (budget): LOF", "estimate #3: timing chain".
  [
    /\b(declined|refused|estimate|quote|quoted|deferred|recommended|postponed|cancelled|canceled)\b\s*(?:(?:by|per|from|no|nr|for|until|till)\b|#)?\s*[a-z0-9' ]{0,25}?(?:\([a-z ]+\))?\s*:/g,
    ' $1 : ',
  ],
  // "Customer wanted belt only: belt renewed": what was wanted is told again.
  [/\b(?:customer|cust|owner|client|he|she|driver) (?:only )?want(?:ed|s) [a-z ]{2,30}? only\s*:/g, ' '],
  // "Now wants LOF. Done."
  [/\b(?:now|today|then) wants? (?=[^.;]{2,30}[.;,-]\s*done\b)/g, ' '],
  // "LOF cancelled at counter", "approved but wrong grade delivered, rescheduled".
  [/\b(lof|oil change|oil chg|service) approved,? but\b/g, ' declined $1 , '],
  [
    /\b(?:left|right|other|lh|rh) (?:bank|side) (?:not approved|declined|refused|not done|later|next \w+)\b/g,
    ' ',
  ],
  [/\b(?:for|under|on) (?:the |this |my |his )?(?:goodwill|recall letter|parts[- ]only warranty)\b/g, ' '],
  // "As required by policy", "per recall": it only says why.
  [
    /\b(?:still |as )*(?:required|requested|needed|recommended) by (?:policy|bulletin|the bulletin|contract|law|oem|maker|manufacturer|tsb|the book|schedule|warranty)\b/g,
    ' ',
  ],
  [
    /\bdue (?=(?:to )?(?:sludge|fuel|contamination|metal|coolant|water|dirt|damage|knock|smell|milky|clog\w*|worn|stretch|code|codes)\b)(?!to )/g,
    ' due to ',
  ],
  [/\bas part of (?:the )?(?:recall|campaign|warranty|tsb)\b/g, ' '],
  // What is only seen on paper.
  [/\b(?:oil )?(?:analysis|sample) (?:report |results? )?(?:came|come) back\b/g, ' lab report '],
  [/\b(?:oil )?analysis report (?:was )?(?:reviewed|read|filed|received)\b/g, ' lab report '],
  [/\b(?:work order|wo|ticket|ro) opened for ([^.;]{2,40})[;,.] ?only\b/g, ' declined $1 ; '],
  [
    /(?<!checked )\b(?:came|here|in|arrived|two trucks came|truck came) for (?:a |an |the |his |her )?(?:lof|oil change|oil|service)\b(?=[^.]{0,80}\b(?:had been done|already done|pulled it back|before we (?:began|started)|only greased|left before)\b)/g,
    ' ',
  ],
  [
    /\b(?:was|were) (?:authori[sz]ed|approved|booked) but (?=customer|cust|owner|driver|unit|vehicle|he|she|they)/g,
    ' declined ',
  ],
];
