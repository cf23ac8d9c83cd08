import type { JobCard } from '../../models/schema/jobCard.ts';
import { distanceUnit, readerUnit, volumeUnit } from '../format/typedMeasures.ts';
import { CardFault, CardField, CardTick, type CardFilling } from './cardField.tsx';
import { findingField } from './cardForm.ts';
import { useSettings } from './fleetState.tsx';

/** Steps in working order, each with a tick, or why it was left out. */
export function CardSteps({ card, filling }: { card: JobCard; filling: CardFilling }) {
  const { measures } = useSettings();
  const sections = [...new Set(card.steps.map(({ section }) => section))];
  return (
    <>
      {sections.map((section) => (
        <section key={section}>
          <h2>{section}</h2>
          <ol class="card-steps">
            {card.steps
              .filter((step) => step.section === section)
              .map(({ id, words, needs, value, optional, unsure }) => {
                const field = `steps.${id}`;
                return (
                  <li key={id}>
                    {needs === 'reference' ? (
                      <>
                        <p>{words}</p>
                        <CardField
                          filling={filling}
                          field="makersReference"
                          label="Maker's procedure followed"
                        />
                      </>
                    ) : (
                      <CardTick
                        filling={filling}
                        field={field}
                        label={optional === true ? `${words} (if you can)` : words}
                      />
                    )}
                    {unsure !== null && <p class="muted">{unsure}</p>}
                    {needs === 'value' && (
                      <CardField
                        filling={filling}
                        field={`${field}.value`}
                        label={[value?.label ?? 'value', readerUnit(value?.unit ?? '', measures)]
                          .filter(Boolean)
                          .join(', ')}
                        kind={value?.type === 'number' ? 'decimal' : 'text'}
                        choices={value?.choices?.map((choice) => [choice, choice] as const)}
                      />
                    )}
                    {needs === 'second_person' && (
                      <CardField filling={filling} field={`${field}.person`} label="Second person's name" />
                    )}
                    <CardFault filling={filling} field={field} />
                    {needs !== 'reference' &&
                      filling.form.ticks[field] !== true &&
                      (filling.faults[field] !== undefined ||
                        filling.form.text[`${field}.leftOut`] !== undefined) && (
                        <CardField
                          filling={filling}
                          field={`${field}.leftOut`}
                          label="Or why it was left out"
                        />
                      )}
                  </li>
                );
              })}
          </ol>
        </section>
      ))}
    </>
  );
}

const banks = [
  ['1', 'bank 1'],
  ['2', 'bank 2'],
  ['both', 'both banks'],
] as const;

/** Findings, oil and parts used, what was renewed, hours and cost. */
export function CardRecord({ card, filling }: { card: JobCard; filling: CardFilling }) {
  const { measures } = useSettings();
  const liters = volumeUnit(measures);
  return (
    <>
      {card.findings.length > 0 && (
        <section>
          <h2>Findings</h2>
          <p class="muted">Leave open what you did not look at.</p>
          <div class="card-fields">
            {card.findings.map(({ finding, bank, label, unit, input, choices }) => (
              <CardField
                key={findingField(finding, bank)}
                filling={filling}
                field={findingField(finding, bank)}
                label={unit === '' ? label : `${label}, ${readerUnit(unit, measures)}`}
                kind="decimal"
                choices={
                  input === 'choice' || input === 'yesno'
                    ? choices.map((choice) => [choice, choice.replaceAll('_', ' ')] as const)
                    : undefined
                }
              />
            ))}
          </div>
        </section>
      )}
      <section>
        <h2>Oil and parts used</h2>
        <CardFault filling={filling} field="oil" />
        <div class="card-fields">
          {card.oil !== null && (
            <>
              <CardField filling={filling} field="oil.grade" label="Oil grade filled" />
              <CardField
                filling={filling}
                field="oil.amountL"
                label={`Oil filled, ${liters}`}
                kind="decimal"
              />
              <CardField
                filling={filling}
                field="usedOilL"
                label={`Used oil collected, ${liters}`}
                kind="decimal"
              />
              <CardTick filling={filling} field="oil.filterChanged" label="Filter changed" />
            </>
          )}
          {card.items.map(({ item, words, measure }) => (
            <CardField
              key={item}
              filling={filling}
              field={`stock.${item}`}
              label={`From the shelf: ${words}, ${measure === 'l' ? liters : 'pieces'}`}
              kind="decimal"
            />
          ))}
        </div>
      </section>
      {card.renewable.length > 0 && (
        <section>
          <h2>Renewed</h2>
          <CardFault filling={filling} field="renewed" />
          {card.renewable.map((work) => (
            <div key={work}>
              <CardTick filling={filling} field={`renewed.${work}`} label={work.replaceAll('_', ' ')} />
              {filling.form.ticks[`renewed.${work}`] === true && (
                <div class="card-fields">
                  <CardField filling={filling} field={`renewed.${work}.bank`} label="Bank" choices={banks} />
                  <CardField filling={filling} field={`renewed.${work}.revision`} label="Part revision" />
                </div>
              )}
            </div>
          ))}
          <CardField
            filling={filling}
            field="outcome"
            label="Why it was renewed"
            choices={[
              ['planned', 'as planned, before it failed'],
              ['failed', 'it had failed'],
            ]}
          />
        </section>
      )}
      <section>
        <h2>Who, when, hours and cost</h2>
        <CardFault filling={filling} field="jobsDone" />
        {card.jobs.map((job, index) => (
          <CardTick
            key={job}
            filling={filling}
            field={`jobs.${job}`}
            label={`Done: ${card.jobWords[index]}`}
            preset
          />
        ))}
        <div class="card-fields">
          <CardField filling={filling} field="technician" label="Your name" />
          <CardField filling={filling} field="closedOn" label="Day of the work, if not today" kind="date" />
          <CardField
            filling={filling}
            field="odometerKm"
            label={`Odometer, ${distanceUnit(measures)}`}
            kind="decimal"
          />
          <CardField filling={filling} field="engineHoursH" label="Engine hours" kind="decimal" />
          <CardField filling={filling} field="labourHours" label="Hours worked" kind="decimal" />
          <CardField filling={filling} field="cost" label="Cost of the whole card" kind="decimal" />
          <CardField filling={filling} field="note" label="Note" />
        </div>
      </section>
    </>
  );
}
