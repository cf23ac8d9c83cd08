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
  [/\bonly wanted (?:the )?([^.;:|]{2,30}?),? which (?:we did|was done|got done)\b/g, ' , $1 changed '],
  [/\bonly wanted (?:the )?[a-z ]{2,30} done\s*:/g, ' '],
  // Stock, and what is on its way: "parts dropped off: 2 oil filters for stock".
  [
    /\bparts (?:only|dropped off|drop|run|order|delivery)\s*[:-][^.;]*\b(?:to|for|into) (?:stock|shelf|stores|cage)\b/g,
    ' ',
  ],
  [/\border placed for\b/g, ' ordered '],
  [/\b(?:awaiting|waiting (?:for|on)) parts?\s*[-:]/g, ' ordered : '],
  [
    /\b(?:scheduled|sched|booked|appt|appointment)\.? (?:for |on )?(?=(?:mon|tues?|wed|thu|thurs?|fri|sat|sun|monday|tuesday|wednesday|thursday|friday|saturday|sunday)\b)/g,
    ' rescheduled ',
  ],
  [/\bduplicate (?:entry|line|ticket|record)\b[^.;]*/g, ' '],
  [/\bannual (?:permit|sticker|decal|registration|tax|fee)\b/g, ' '],
  [/\b(?:our tech |we |tech |they )?forgot (?:the )?filter (?:last time|before)\b/g, ' '],
  [
    /\b(?:scheduled maint(?:enance)?|service|svc|maint(?:enance)?)\.? (?:as )?per (?:the )?(?:book|manual|schedule)\b\s*[-:,]*\s*(?=(?:motor |engine |eng )?oil\b)/g,
    ' ',
  ],
  // It says why, by whom or where, and names no part.
  [/\bcame in for (?=[^.;]{3,40}[.;] ?(?:while|also|and)\b)/g, ' '],
  [
    /\bper (?:the )?(?:sticker|book|schedule|customer|cust|request|manual|tag|card|interval|mgr|manager|dispatch|fleet)\b/g,
    ' ',
  ],
  [/\bunder (?:the )?(?:recall|warranty|campaign|goodwill|contract)\b/g, ' '],
  [/\bnext door\b/g, ' '],
  [/\b(?:zeroed|reset|cleared|set) (?:the )?(?:oil )?life (?:monitor|meter|reminder|counter|light)?/g, ' '],
  [/\bby (?:the |a |some )?(?:quick|express|fast) ?lube(?: place| shop)?\b/g, ' '],
];
