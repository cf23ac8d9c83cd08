import { expect, test } from 'vitest';
import { readWork } from '../../../models/intake/workText.ts';
import { words } from './workTraining/sets.ts';

/** What the rules alone make of a text: cases by construction, common practice, no source. */
const works = (text: string) => [...readWork(text, words).works].sort().join(' ');
const cases = (meant: string, texts: readonly string[]) => {
  for (const text of texts) expect(works(text), text).toBe(meant);
};

test('an oil pressure that was read is a look, its sender and gauge are none', () => {
  cases('inspection', ['oil pressure at idle 9 psi', 'tested hot oil pressure, 2.1 bar']);
  cases('other', ['oil pressure sender renewed, gauge reads again', 'oil pressure switch leaking, ordered']);
});

test('a filter that stays says nothing of the oil beside it', () => {
  cases('oil_change', [
    'oil chg 4 qt 5w20, no filter (none on shelf)',
    'Drained and refilled w/ 11 L of 15W-40; filter backordered',
  ]);
});

test('what was wanted, ordered, put off or put on a shelf was not done', () => {
  cases('other', [
    'came for LOF, no bay free, sent away',
    'next PM: oil, oil filter',
    '6 qt 5W-30 and filter issued to bin, not installed',
  ]);
});

test('the place that a heading names is no object', () => {
  cases('filter oil_change', ['Fire pump engine: 12 L 15W-40 and oil filter renewed']);
});

test('what was done to another thing of a list is not done to the filter', () => {
  cases('filter oil_change', [
    '6.1 qt 0w20 + oil filter, vacuumed, washed',
    'oil, oil filter, belts checked',
    'engine oil 10W-30 9 L + filter, urea topped',
  ]);
  cases('thermostat', ['thermostat, radiator cap cleaned']);
});

test('beside a repair a look without an object of ours belongs to it', () => {
  cases('tensioner_guides', [
    'lower tensioner renewed, rechecked for leaks',
    'guides replaced, chain ok reused',
  ]);
  cases('filter inspection oil_change', ['LOF / insp / rotate']);
});

test('what of the drive was kept was not renewed', () => {
  cases('tensioner_guides', [
    'both guides renewed, old chain goes back in',
    'upper tensioner replaced, kept chain',
  ]);
});

test('oil up to the mark and no word of a change is a top-up, whatever the amount', () => {
  cases('top_up', [
    'took 4 qts to bring up on the stick',
    'eng oil +1.5 qt',
    'put 3 gal in the engine',
    'oil to full line',
    'stick dry, 2 L of 10W-30 in',
  ]);
  cases('engine', ['reman engine fitted, 12 L 10W-40']);
});

test('driving and reading codes is no look at a part, opening something for a look is', () => {
  cases('other', ['test drove 9 miles, could not duplicate', 'pulled codes P0011 P0014, gave copy to owner']);
  cases('inspection', ['pulled dipstick, clean and full', 'valve cover off for a look, varnish light']);
  cases('inspection oil_change', ['sampled the engine oil, then changed it']);
});

test('work that was sent out and came back was done', () => {
  cases('timing_set', ['Sent to dealer for timing set. Dealer performed job, back today']);
});

test('what was ordered and came in, what was looked at and failed, was renewed', () => {
  cases('oil_control_solenoid', ['both vvt solenoids ordered, came in and installed']);
  cases('crank_sensor', ['Checked crank sensor, dead. Replaced.']);
  cases('cam_sensor', ['new cam sensor fitted that was on backorder']);
});

test('short forms of the engine oil and its filter', () => {
  cases('filter oil_change', ['E/O & OF changed, 9 ltr', '6 qt 5w30 + OF', 'EO+F 0W-20']);
});

test('a job named as a whole speaks of the list before it', () => {
  cases('filter oil_change', [
    'engine oil and oil filter replacement',
    'huile moteur et filtre à huile remplacés',
    'did the oil, did the filter, skipped the wash',
  ]);
});

test('a check before a top-up, and what was done for a consumption test, is no look of its own', () => {
  cases('top_up', ['checked oil, added 1.5 qt']);
  cases('filter oil_change', ['Consumption test start: oil and filter changed']);
});

test('a leak that was sought and a belt that was looked at are looks', () => {
  cases('inspection', [
    'looked for oil leak at rear main, damp, monitor',
    'lifted cover and checked timing belt, cracks, customer to decide',
  ]);
});

test('what does not work any more is said of the time before', () => {
  cases('thermostat', ['termostato sostituito, non scaldava', 'thermostat remplacé, chauffait pas']);
  cases('filter oil_change phaser', ['phaser RH. LOF as well, was due']);
});

test('the fill after work on the front of an engine belongs to it', () => {
  cases('phaser', ['Both cam phasers, 5.5 qt 5w30 refilled after']);
  expect(readWork('Both cam phasers, 5.5 qt 5w30 refilled after', words).oilL).toBeCloseTo(
    5.5 * 0.946352946,
    6,
  );
});

test('of several amounts the one that went in counts', () => {
  // 1 US gallon is 3.785411784 L (NIST Handbook 44, appendix C)
  expect(readWork('2 qts low, gave it a gallon of oil', words).oilL).toBeCloseTo(3.785411784, 6);
  expect(readWork('oil and filter, 3 gal less 1 qt (11 qt)', words).oilL).toBeCloseTo(11 * 0.946352946, 6);
});

test('a code or a part of its own that waits does not undo what was done', () => {
  cases('cam_sensor', ['P0340: new cam sensor fitted; P0014 still pending']);
  cases('filter oil_change', ['oil late by 900 mi, changed, new filter, shorter interval advised']);
});

test('what came along with a part is not the part', () => {
  cases('phaser', ['exhaust phaser seized, replaced with bolt']);
  cases('thermostat', ['stuck thermostat, renewed with gasket']);
});

test('a service and its amounts in one breath, a number with its sign', () => {
  cases('filter inspection oil_change', ['PM-B 11 gal 15W-40 2 oil filters']);
  cases('other', ['Estimate #2: timing chain. Not approved.']);
});

test('oil that was added without draining is a top-up; oil that was not drained beside a filter is none', () => {
  cases('top_up', ['5 L of 15W-40 added without draining', 'dumped in 4 qts, no drain']);
  cases('filter', [
    'oil filter renewed, oil not drained',
    'only the oil filter renewed. Oil itself 400 km old',
  ]);
});

test('another fluid that stands before it', () => {
  cases('other', ['final drives: oil changed', 'front axle oil level topped']);
});

test('nothing was done, or the verb stands apart', () => {
  cases('other', ['oil change every 8k explained to driver, no work', 'Kunde lehnt Ölwechsel und Filter ab']);
});

test('a thing by its place, its code or its later name', () => {
  cases('cam_sensor crank_sensor', ['cam position sensor, crank position sensor, coils']);
  cases('oil_control_solenoid', [
    'P0014: solenoid renewed',
    'vvt solenoid connector burnt, solenoid replaced too',
  ]);
  cases('belt', ['distribución: correa y rodillos cambiados', 'timing belt tensioner noisy, replaced belt']);
  cases('filter', ['wrong filter fitted by others, put correct one on']);
});

test('a part that was only wired, an inspection that is only scheduled', () => {
  cases('other', [
    'crank sensor wiring chafed, taped. No parts',
    'annual inspection scheduled, unit on route',
  ]);
  cases('inspection', ['Steuerkette gelängt, Angebot geschrieben', 'cadena estirada, se cotizó']);
  cases('filter oil_change', ['came for wipers, did overdue LOF while here']);
});

test('a service of the oil with a grade or an amount is a change', () => {
  cases('oil_change', ['synthetic oil service 5W-40, 6.3 L']);
  cases('other', ['service, washed']);
});

test('a filter that was changed on another day, or that nobody had, was not changed', () => {
  cases('oil_change', [
    'Engine oil replacement 6.8 L - filter was replaced 2 weeks back after leak',
    'Drained old, poured new 0w20. Filter? none on shelf',
    'oil 5W-30 changed, nobody had a filter',
  ]);
  cases('filter', ['Oil was changed 300 miles back so we only put a new oil filter on']);
  cases('filter oil_change', ['Oil and filter changed at 5,012 hrs', 'did the oil & filter while it was in']);
});

test('work that it came back from is not done again', () => {
  cases('other', ['Oil was changed 200 mi ago per sticker, so I did nothing']);
  cases('tensioner_guides', ['comeback from chain job: new tensioner leaked down, changed again']);
});

test('oil out and oil in is a change', () => {
  cases('oil_change', ['old black oil out fresh oil in', 'waste oil out, 13 l in']);
  cases('filter oil_change', ['drained and filled eng oil, spun on filter']);
});

test('what is added beside a filter alone makes up for what ran out', () => {
  cases('filter top_up', [
    'new oil filter + 0.3 l to bring the level back',
    'Filter double-gasketed by other shop, leaked out. New filter, added 5 qts 5W-30',
  ]);
  cases('top_up', ['Oil level low - corrected', 'unit 2 gal down, filled 2 gal 15w40']);
  cases('cam_sensor top_up', ['Put in a camshaft position sensor and 1 qt of oil']);
});

test('the first fill of an engine has no oil change beside its filter', () => {
  cases('engine filter', ['Long block installed, 7 qts 5w30, new filter']);
  cases('engine', ["moteur échangé standard, plein d'huile 7,5 L 5W30"]);
});

test('a question that is answered, a heading with its reason', () => {
  cases('filter oil_change oil_control_solenoid', [
    '1. LOF 2. VVT solenoid cleaned? no, renewed both 3. air filter',
  ]);
  cases('other', [
    'Declined by dept head (budget): LOF, cabin filter. Mounted plate lamp only',
    'Estimate #3: timing chain, phasers, water pump. Not approved.',
  ]);
});

test('a thing by its place in brackets, both shaft sensors in one breath', () => {
  cases('belt', ['belt (cam) renewed', 'kit de distribution et pompe à eau remplacés (courroie)']);
  cases('cam_sensor crank_sensor', ['CMP/CKP sensors renewed', 'sensors: crank, 2x cam. all at once.']);
  cases('crank_sensor', ['CPS (crankshaft) replaced, air gap ok']);
  cases('cam_sensor', ['exh cam sensor oil soaked, replaced w/ pigtail']);
});

test('an engine that only says where, a period that is no inspection', () => {
  cases('other', ['noise from front of engine, idler pulley for fan belt replaced']);
  cases('thermostat', ['engine too cold, thermostat renewed']);
  cases('filter oil_change', ['Annual oil & filter', 'scheduled maint 30k: oil, oil filter, air filter']);
});

test('a sample kept beside a change is a look', () => {
  cases('inspection oil_change', [
    'sampled and changed oil',
    'changed eng oil 10w30, kept bottle of the old for lab analysis',
  ]);
});

test('shops that write in other scripts', () => {
  cases('filter oil_change', [
    '更换机油和机油滤清器 5W-30 4L',
    '엔진오일, 오일필터 교환 5W-30',
    'เปลี่ยนถ่ายน้ำมันเครื่อง พร้อมไส้กรองน้ำมันเครื่อง',
    'تغيير زيت المحرك مع فلتر الزيت',
    'تعویض روغن موتور و فیلتر روغن',
    'החלפת שמן מנוע ופילטר שמן',
  ]);
  cases('oil_change', ['エンジンオイル交換 0W-20 3.2L']);
  cases('timing_set', ['更换正时链条套件']);
  cases('other', ['空气滤清器更换']);
});

test('what came before it: another fluid, too much oil, a test of the part', () => {
  cases('other', [
    'Power steering fluid leaked out. new hose and filled 1 qt',
    'overfilled by quick lube, sucked out 1 L',
  ]);
  cases('oil_control_solenoid', ['OCV ohmed out 3.1, replaced, code P2088 gone']);
  cases('cam_sensor', ['3 of 4 cam sensors were fine, #2 replaced']);
});

test('an amount to get home or for what leaked is a top-up', () => {
  cases('top_up', [
    '4 quarts 5W-30 to get it home, sump gasket weeping, shop visit to follow',
    'dipstick dry, poured 2 gal of 15w40 in',
  ]);
  cases('oil_control_solenoid top_up', ['OCV o-ring leaking, new OCV, 1 qt to replace what leaked']);
});

test('a day in words, stock, and a yes or no behind a dash', () => {
  cases('other', [
    'Oil svc scheduled Fri 0700',
    'oil change authorised. appt Monday 8 am',
    'Oil chg - no. Filter - no. Tires - yes.',
    'Parts only: 1 cs 15W-40, 4 filters to stock',
  ]);
  cases('filter', ['Just the engine oil filter today. Oil was changed on the 3rd.']);
  cases('oil_change', ['CHG OIL TRACTOR 3 FILTER N/A']);
});

test('a part in a roundabout way', () => {
  cases('oil_control_solenoid', ['solenoid for exhaust cam replaced under warranty']);
  cases('ventilation_valve', [
    'crankcase vent valve changed because oil was coming out the breather',
    "reniflard d'huile remplacé",
  ]);
  cases('belt', ['kit de distribution à courroie remplacé avec pompe à eau']);
  cases('other', [
    'taxi meter replaced, sealed by city',
    'drive chain on sweeper broom replaced with tensioner',
  ]);
  cases('tensioner_guides', ['upper guide rail broken: rail kit renewed']);
});
