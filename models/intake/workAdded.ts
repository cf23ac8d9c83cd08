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
];
