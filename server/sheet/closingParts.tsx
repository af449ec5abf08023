// The sheet's last sections: what could not be computed, the file's own notes, cautions, and the lines to sign on.

import type { VNode } from 'preact';
import type { Setup } from '../../core/setup.ts';
import { pathText } from '../../schema/model/path.ts';
import { Said } from './said.tsx';
import { Section } from './section.tsx';
import { placeOf, ToSource } from './source.tsx';
import type { View } from './view.ts';
import { capitalised, counted, listed } from './words.ts';

export function NotesPart({ setup }: View): VNode | null {
  const own = setup.room.notes;
  if (own.length === 0 && setup.notes.length === 0) return null;
  return (
    <Section id="notes" title="Notes">
      {own.length === 0 ? null : (
        <dl class="notes">
          {own.map(({ path, text }) => (
            <div key={pathText(path)} {...placeOf(path)}>
              <dt>
                <ToSource path={path}>{pathText(path)}</ToSource>
              </dt>
              <dd>{text}</dd>
            </div>
          ))}
        </dl>
      )}
      {setup.notes.length === 0 ? null : (
        <>
          <h3>Not computed, or assumed</h3>
          <dl class="notes">
            {setup.notes.map(({ path, message }) => (
              <div key={`${pathText(path)} ${message}`} {...placeOf(path)}>
                <dt>
                  <ToSource path={path}>{path.length === 0 ? 'room' : pathText(path)}</ToSource>
                </dt>
                <dd>
                  <Said text={message} />
                </dd>
              </div>
            ))}
          </dl>
        </>
      )}
    </Section>
  );
}

export function CautionsPart({ setup }: View): VNode | null {
  if (setup.cautions.length === 0) return null;
  return (
    <Section id="cautions" title="Cautions">
      <ul class="cautions">
        {setup.cautions.map((caution) => (
          <li key={caution} class="caution">
            <Said text={caution} />
          </li>
        ))}
      </ul>
    </Section>
  );
}

/** What the file says of the last sign-off, and lines for the next. */
export function SignOffPart({ setup }: View): VNode {
  const signed = setup.room.signedOff;
  return (
    <Section id="sign-off" title="Sign-off">
      <p {...placeOf(['signed_off'])}>
        {signed === null
          ? unsignedText(setup)
          : `Signed off ${signed.date ?? 'without a date'} by ${signed.by ?? 'nobody named'}${signed.setup === null ? '' : `, in the state ${signed.setup}`}${signed.recheck_months === null ? '' : `; to be checked again after ${counted(signed.recheck_months, 'month')}`}.`}
      </p>
      <dl class="sign-lines">
        {['Set up by', 'Measured by', 'Listened to by', 'Date', 'Check again on'].map((line) => (
          <div key={line}>
            <dt>{line}</dt>
            <dd>
              <span class="unseen">to be filled in by hand</span>
            </dd>
          </div>
        ))}
      </dl>
    </Section>
  );
}

/** What the file states as measured is neither a decision nor a prediction. */
function unsignedText({ space, room }: Setup): string {
  const measured = [
    space?.decayTime?.from === 'measured' ? 'decay times' : null,
    room.space.backgroundNoise === null ? null : 'background noise',
  ].filter((word) => word !== null);
  return measured.length === 0
    ? 'Not signed off: every figure on this sheet is a decision or a prediction.'
    : `Not signed off. ${capitalised(listed(measured))}: measured, as the file states; every other figure on this sheet is a decision or a prediction.`;
}
