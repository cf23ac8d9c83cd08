import type { SymptomForm } from '../../models/assessment/symptomForm.ts';
import { useSettings } from './fleetState.tsx';
import { DeskChoice, DeskNumber } from './deskChoice.tsx';

interface DeskFormProps {
  readonly form: SymptomForm;
  readonly change: (part: Partial<SymptomForm>) => void;
}

const fault = [
  ['', 'Not checked'],
  ['ok', 'In order'],
  ['fault', 'Faulty'],
] as const;

const rattles = [
  ['', 'Not listened'],
  ['0', 'None'],
  ['1', 'About 1 s'],
  ['2', '2 s'],
  ['4', '4 s'],
  ['7', 'Longer than 5 s'],
] as const;

const screens = [
  ['', 'Not seen'],
  ['0 %', 'Clear'],
  ['10 %', 'A tenth blocked'],
  ['25 %', 'A quarter'],
  ['50 %', 'Half'],
  ['75 %', 'Three quarters'],
  ['100 %', 'Wholly'],
] as const;

/** A choice that stands for what is typed beside it; a typed value of its own leaves none chosen. */
const among = <T extends string>(value: string, choices: readonly (readonly [T, string])[]): T =>
  choices.find(([choice]) => choice === value)?.[0] ?? ('typed' as T);

/** What was seen and measured: cheap and likely things first, in the order in which a shop asks. */
export function DeskForm({ form, change }: DeskFormProps) {
  const us = useSettings().measures === 'us';
  return (
    <section aria-labelledby="desk-signs" class="desk-form">
      <h2 id="desk-signs">What you see and hear</h2>
      <label class="desk-number">
        <span>Fault codes, several with a comma between</span>
        <input
          type="text"
          autoCapitalize="characters"
          autoComplete="off"
          spellcheck={false}
          placeholder="P0016, P0011"
          value={form.codes}
          onInput={(event) => change({ codes: event.currentTarget.value, noCodes: false })}
        />
      </label>
      <label class="desk-tick">
        <input
          type="checkbox"
          checked={form.noCodes}
          onChange={(event) => change({ noCodes: event.currentTarget.checked, codes: '' })}
        />
        <span>Reader connected, no codes</span>
      </label>
      <DeskChoice
        title="Oil level, on level ground"
        name="level"
        value={form.level}
        choices={[
          ['', 'Not read'],
          ['ok', 'Between the marks'],
          ['low', 'Low'],
        ]}
        choose={(level) => change({ level })}
      >
        {form.level === 'low' && (
          <DeskNumber
            title="What is missing"
            unit={us ? 'qt, or write L' : 'L, or write qt'}
            value={form.levelLiters}
            enter={(levelLiters) => change({ levelLiters })}
          />
        )}
      </DeskChoice>
      <DeskChoice
        title="Rattle at the start"
        name="rattle"
        value={among(form.rattle, rattles)}
        choices={rattles}
        choose={(rattle) => change({ rattle })}
      >
        <div class="desk-pair">
          <DeskNumber title="Rattle" unit="s" value={form.rattle} enter={(rattle) => change({ rattle })} />
          <DeskNumber title="Stood before it" unit="h" value={form.soak} enter={(soak) => change({ soak })} />
        </div>
      </DeskChoice>
      <DeskChoice
        title="Coolant in the oil"
        name="coolant"
        value={form.coolant}
        choices={[
          ['', 'Not looked'],
          ['no', 'None'],
          ['yes', 'Yes'],
        ]}
        choose={(coolant) => change({ coolant })}
      />
      <DeskChoice
        title="Oil: grade and category, age"
        name="grade"
        value={form.grade}
        choices={[
          ['', 'Not compared'],
          ['ok', 'As the engine asks'],
          ['wrong', 'Wrong or past its limit'],
        ]}
        choose={(grade) => change({ grade })}
      />
      <fieldset class="desk-choice">
        <legend>Hot idle oil pressure, with a gauge</legend>
        <div class="desk-pair">
          <DeskNumber
            title="Pressure"
            unit={us ? 'psi, or write kPa, bar' : 'kPa, or write psi, bar'}
            value={form.pressure}
            enter={(pressure) => change({ pressure })}
          />
          <DeskNumber title="Speed" unit="rpm" value={form.rpm} enter={(rpm) => change({ rpm })} />
          <DeskNumber
            title="Oil temperature"
            unit={us ? '°F, or write °C' : '°C, or write °F'}
            value={form.oilTemperature}
            enter={(oilTemperature) => change({ oilTemperature })}
          />
        </div>
      </fieldset>
      <DeskChoice
        title="Connectors, wiring, sensors"
        name="wiring"
        value={form.wiring}
        choices={fault}
        choose={(wiring) => change({ wiring })}
      />
      <DeskChoice
        title="Crankcase ventilation"
        name="ventilation"
        value={form.ventilation}
        choices={fault}
        choose={(ventilation) => change({ ventilation })}
      />
      <DeskChoice
        title="Thermostat"
        name="thermostat"
        value={form.thermostat}
        choices={[
          ['', 'Not checked'],
          ['ok', 'In order'],
          ['fault', 'Stuck open'],
        ]}
        choose={(thermostat) => change({ thermostat })}
      />
      <DeskChoice
        title="Oil control screen"
        name="screen"
        value={among(form.screen, screens)}
        choices={screens}
        choose={(screen) => change({ screen })}
      >
        <DeskNumber
          title="Blocked share"
          unit="write 40 % or 0.4"
          value={form.screen}
          enter={(screen) => change({ screen })}
        />
      </DeskChoice>
      <DeskNumber
        title="Phase deviation, phaser parked"
        unit="degrees of the crank"
        value={form.phase}
        enter={(phase) => change({ phase })}
      />
      {(form.screen !== '' || form.phase !== '') && (
        <DeskChoice
          title="Bank that the screen or phase belongs to"
          name="bank"
          value={form.bank}
          choices={[
            ['', 'Only one, or not told'],
            ['1', 'Bank 1'],
            ['2', 'Bank 2'],
          ]}
          choose={(bank) => change({ bank })}
        />
      )}
    </section>
  );
}
