// The sheet's last sections: what could not be computed, the file's own notes, cautions, and the lines to sign on.

import type { VNode } from 'preact';
import type { Setup } from '../../core/setup.ts';
import { pathText } from '../../schema/model/path.ts';
import { Mark } from './mark.tsx';
import { TieState } from './recordPart.tsx';
import { dueText } from './recordText.ts';
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
  const signOff = setup.record?.signOff ?? null;
  return (
    <Section id="sign-off" title="Sign-off">
      <p {...placeOf(['signed_off'])}>{signedText(setup)}</p>
      {signOff === null ? null : (
        <p class="sign-off-state">
          <TieState tie={signOff} />
          {dueText(signOff) === '' ? null : (
            <span class="note">
              {signOff.isDue === true ? <Mark kind="differs" /> : null} {dueText(signOff)}
            </span>
          )}
        </p>
      )}
      <dl class="sign-lines">
        {['Set up by', 'Measured by', 'Listened to by', 'Date', 'Check again on', 'Signature'].map(
          (line) => (
            <div key={line}>
              <dt>{line}</dt>
              <dd>
                <span class="unseen">to be filled in by hand</span>
              </dd>
            </div>
          ),
        )}
      </dl>
      <p class="note">{toSignText(setup)}</p>
    </Section>
  );
}

function signedText(setup: Setup): string {
  const signed = setup.room.signedOff;
  if (signed === null) return unsignedText(setup);
  const { date, by, setup: state, recheck_months } = signed;
  const of = state === null ? '' : `, in the state ${state}`;
  const again =
    recheck_months === null
      ? ''
      : `; to be checked again after ${counted(recheck_months, 'month')}`;
  return `Signed off ${date ?? 'without a date'} by ${by ?? 'nobody named'}${of}${again}.`;
}

/** What a signature on this paper is about. */
function toSignText({ record }: Setup): string {
  const text = record?.fingerprint.text ?? null;
  return text === null
    ? 'This sheet is of a set-up that cannot be read whole: not to be signed.'
    : `Whoever signs, signs the set-up ${text}.`;
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
