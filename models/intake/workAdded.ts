/** Turns of phrase about oil that was added, and about fills that belong to other work. */
export const added: readonly (readonly [RegExp, string])[] = [
  // "Unit 2 gal down, filled 2 gal", "dipstick 3 qts short. Filled 3 qts".
  [/(#\d+ +(?:down|low|short|under)\b[^;|]{0,25}?)\bfilled\b(?! to the brim)/g, '$1 topped up '],
  [/\b(?:dumped|tipped|threw|chucked|glugged) +(#\d+)(?: +(?:of )?(?:#g|oil))? +in\b/g, ' topped up oil $1 '],
  [/\boil can emptied in(?:to)? (?:the )?(?:engine|motor)\b/g, ' topped up oil '],
  [/\bput in ([^.;]{3,50}?) and +(#\d+ +of oil)\b/g, ' put in $1 , added $2 '],
  [
    /\b(?:only )?needed +(?:a )?(?:qt|quart|liter|litre)?\s*\(?(#\d+)\)?(?=\s*[,.;]|\s*$)/g,
    ' topped up oil $1 ',
  ],
  [
    /(?<=(?:burn\w*|us\w+|drink\w*|eat\w*) oil[^;|]{0,15})(#\d+ +(?:jug|bottle|can)s? +(?:went|put|poured) in)\b/g,
    ' topped up oil $1 ',
  ],
  [/(#\d+) +(?:jug|bottle|can)s? +(?:of oil )?(?:went|poured) in\b/g, ' topped up oil $1 '],
  [/\b(?:qt|quart|liter|litre)s?\.? of oil in from\b/g, ' topped up oil from '],
  [
    /\b(?:driver|he|she|operator|guard|they) poured (?:it|them|one) in(?:to)?(?: (?:the )?(?:engine|motor))?\b/g,
    ' topped up oil ',
  ],
  [
    /\bbought (?:a |one |two )?(?:bottle|quart|qt|jug)s? (?:of oil )?and (?:put|poured) (?:it|them) in\b/g,
    ' topped up oil ',
  ],
  [
    /\b(?:made good|restored|brought back|put back) (?:the )?(?:oil )?(?:level|what (?:was lost|ran out|leaked))\b/g,
    ' topped up oil ',
  ],
  [
    /\bto (?:bring (?:(?:the |back )*level|(?:the )?oil (?:back|up))(?: back| up)*|make up (?:the )?(?:loss|level))\b/g,
    ' topped up ',
  ],
  [/(?<=,\s*)(#\d+) +to top\b/g, ' topped up oil $1 '],
  // What befell a part: "sensor oil soaked, replaced w/ pigtail".
  [/(?<!after )\boil[- ]soaked\b/g, ' worn '],
  [
    /\b(replaced|renewed|changed|swapped|fitted|installed) (?:w\/|with|w|along with|including|incl\.?) ?(?:a |an |the |new )*(?:pigtail|connector|gasket|seal|o ?-?ring|bolts?|hardware|clip|washer|plug|harness end)\b/g,
    ' $1 ',
  ],
  [
    /(#\d+ [^.;#]{0,15}(?:#g)?[^.;#]{0,8}?)to (?:replace|make up for|cover) what (?:had )?(?:leaked|was lost|spilled|ran out|came out|dripped|it lost)(?: out)?\b/g,
    ' topped up oil $1 ',
  ],
  [
    /(#\d+ +(?:of )?(?:#g +|oil +)*)to get (?:it|her|him|them|me|us|unit) (?:home|back|in)\b/g,
    ' topped up oil $1 ',
  ],
  [/\blost (?:all |its |most |some )*oil\b([^|]{0,60}?)(#\d+ *(?:#g)?) +put in\b/g, ' $1 topped up oil $2 '],
  [/\btold \w+ to (?:top|add|top up) (?:the )?oil,? (?:and )?(?:he|she|they) did\b/g, ' topped up oil '],
  [/\bput in what (?:it|she|he) (?:took|needed|wanted)\b/g, ' topped up oil '],
  [
    /\b(?:bought|grabbed|got|took) +(?:a |an )?(#\d+ +(?:of )?(?:#g +|oil +)*)(?:and|&) (?:dumped|poured|put|tipped) (?:it |them )?in\b/g,
    ' topped up oil $1 ',
  ],
  [/\bpoured +(#\d+ +(?:of )?(?:#g +|oil +)*)in\b(?<!drain.*|chang.*|old oil.*)/g, ' topped up oil $1 '],
  [
    /(#\d+ +(?:of )?(?:#g +|oil +)*)into (?:the )?(?:engine|motor)\b(?! after)(?<!drain.*|chang.*|new .*|fitted.*|install.*)/g,
    ' topped up oil $1 ',
  ],
  [/\btopped (?:up )?(?:with )?(?=#g)/g, ' topped up oil '],
  // What was too much: "overfilled, sucked out 1 L".
  [
    /\boverfilled\b([^.;|#]{0,40}?)\b(?:sucked|drained|pulled|let|took) (?:out |off )?(?:#\d+|excess|extra|some|down to \w+)(?: out| off)?/g,
    ' overfilled $1 adjusted ',
  ],
  [
    /\b(?:drained|sucked|pulled|took|let|removed) (?:out |off )?(?:the )?(?:excess|extra|surplus)(?: oil)?(?: to bring (?:it )?(?:back )?(?:down )?to (?:the )?\w+(?: line| mark)?)?/g,
    ' adjusted ',
  ],
];
