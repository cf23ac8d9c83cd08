import { modelDescriptions } from '../../models/assessment/modelDescriptions.ts';
import type { MethodResponse } from '../../models/schema/endpoints.ts';

/** Each kind of model: what it gives, rests on and cannot do, with the number of its coefficients below. */
export function ModelDescriptions({ groups }: { groups: MethodResponse['groups'] }) {
  const ids = groups.flatMap((group) => group.coefficients.map((entry) => entry.id));
  return (
    <section>
      <h2>The models</h2>
      {modelDescriptions.map((model) => {
        const count = ids.filter((id) => model.coefficients.some((start) => id.startsWith(start))).length;
        return (
          <details key={model.id} id={`model-${model.id}`}>
            <summary>
              {model.title}, version {model.version}
            </summary>
            <dl class="facts">
              <dt>Gives</dt>
              <dd>{model.gives}</dd>
              <dt>From</dt>
              <dd>{model.inputs}</dd>
              <dt>How</dt>
              <dd>{model.formula}</dd>
              <dt>Assumes</dt>
              <dd>{model.assumes.join('. ')}.</dd>
              <dt>Limits</dt>
              <dd>{model.limits.join('. ')}.</dd>
              <dt>What moves it</dt>
              <dd>{model.moves}</dd>
              {count > 0 && (
                <>
                  <dt>Coefficients</dt>
                  <dd>
                    <a href="#coefficients">{count} of those below</a>
                  </dd>
                </>
              )}
            </dl>
          </details>
        );
      })}
      <p>
        How the chances did on this fleet’s own past: <a href="/proof">Proof</a>.
      </p>
    </section>
  );
}
