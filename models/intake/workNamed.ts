const side = '(?:intake|exhaust|inlet|outlet|variable|int|exh|in|ex)';
const beltWord = '(?:courroie|correa|correia|cinghia|riem|remmen|pasek|pasku)';

/** Turns of phrase that name a part by its place, its owner or in a roundabout way. */
export const named: readonly (readonly [RegExp, string])[] = [
  [
    new RegExp(
      `(?<!control |vvt |vct |oil |timing )\\bsolenoids? (?:for|of|on) (?:the )?(?:${side} )?(?:cam timing|variable cam timing|variable cam|camshafts?|cams?)\\b`,
      'g',
    ),
    ' vvt solenoid ',
  ],
  [/\bphaser side (?=[a-d12]\b)/g, ' side '],
  [
    new RegExp(`\\bkits? (?:de )?distribu\\w* (?:a|con|de|com|par|por|na|med) ${beltWord}\\b`, 'g'),
    ' timing belt ',
  ],
  [/\bt\s*\/\s*b\b/g, ' timing belt '],
  [/\boil bath (?=(?:timing )?belt)/g, ' '],
  [
    /(?<!timing )\b(?:drive|roller|conveyor|broom|elevator|feeder|hoist|auger|floor|sweeper|spreader) chain\b(?:[^.;|]{0,30}?\b(?:with|and|\+|&) (?:a |new |its )*tensioner\b)?/g,
    ' roller chain ',
  ],
  [
    /\b(?:tensioner|chain tensioner) on (?:the )?\w* ?(?:spreader|floor|roller|conveyor|broom|feeder) chain\b/g,
    ' roller chain ',
  ],
  [/\b(?:spreader|floor|roller|conveyor|broom) chain tensioner\b/g, ' roller chain '],
  [
    /\b(tensioner|guides?|phasers?) recall (?:done|performed|completed) on (?:the )?(?:timing )?chain\b/g,
    ' $1 replaced ',
  ],
  [
    /\b(?:did|performed|completed|carried out) (?:the )?(timing (?:chain|belt)|phaser) recall\b/g,
    ' replaced $1 ',
  ],
  [
    /\b(?:little |small |fine )?(?:sieve|strainer|mesh|screen|gauze)s? (?:in front|ahead|upstream|before) (?:of )?(?:the )?(?:cam adjuster|cam oil valve|phaser|vvt \w+|ocv|oil control (?:valve|solenoid)|adjuster)\b/g,
    ' ocv screen ',
  ],
  // What came out of it is not what was renewed: "oil was coming out the breather".
  [
    /\b(?:because |since |as )?oil (?:was |is |being |kept |got )*(?:coming|blown|blowing|pushed|pushing|sucked|leaking|spitting|spewing) (?:out |from |through |past |into |up )*(?:of )?(?:the )?(?=breather|pcv|vent|intake|tailpipe|air)/g,
    ' leaking at ',
  ],
  [/\boil breather\b/g, ' breather '],
  [/\breniflard d.? ?huile\b/g, ' reniflard '],
  [/\b(?:whole |entire )?(?:front|rear|top|side|back) of (?:the )?(?:engine|motor)\b/g, ' '],
  // One of several: "3 of 4 cam sensors were fine, #2 replaced".
  [/\b\d of (?:the )?\d ([a-z ]{3,30}?) (?:were|are|was) (?:fine|ok|good|in spec)\b/g, ' $1 '],
  [
    /\bodo(?:meter)? (?:inop|dead|not working|stuck)\s*[-:;,.]+\s*(?=(?:new |replaced )?(?:vss|speed sensor|fuse|wiring|connector))/g,
    ' ',
  ],
  [/\b(?:taxi|fare|parking|postage|water|flow) meter\b/g, ' taximeter '],
  [/\bgear ?box oil filter (?:\+|and|&) oil\b|\bwet clutch oil(?: and filter)?\b/g, ' gearbox oil '],
  // Opened for a look.
  [/\bdropped in (?:a |the )?(?:camera|scope|borescope|endoscope)\b/g, ' inspected by camera '],
  [
    /\b(?:took off|removed|pulled|lifted) (?:the )?(?:upper |lower |timing |valve |front |cam )*covers? to (?:see|view|look at|inspect|check)\b/g,
    ' inspected ',
  ],
];
