import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import type { Design } from '../../../../shared/design/design.ts';
import { expandDesign } from '../../../../shared/design/expand-design.ts';
import type { Bench, Plan } from '../../../../shared/design/plan.ts';
import type { Solder } from '../../../../shared/design/solder.ts';
import type { PlanCheck } from '../../../../shared/sequencing/plan-check-answer.ts';
import { api, bodyOf } from '../../api/client.ts';
import { ApiProblem } from '../../api/problem.ts';
import { useSending } from '../../api/use-sending.ts';
import { useCheck } from '../../engine/use-check.ts';
import { Button } from '../../ui/button.tsx';
import { ProblemNotice } from '../../ui/problem-notice.tsx';
import { useWords } from '../../words/words.ts';
import { asItIs, isOfTheRest } from './as-it-is.ts';
import { BehindNotice } from './behind-notice.tsx';
import { HeatList } from './heat-list.tsx';
import { HeatView } from './heat-view.tsx';
import type { DesignOfPiece, Piece, PlanVersion } from './piece-plans.ts';
import { PlanProblems } from './plan-problems.tsx';
import { SearchPanel } from './search-panel.tsx';
import { usePlanDraft, type PlanDraft } from './use-plan-draft.ts';

interface Props {
  piece: Piece;
  design: DesignOfPiece;
  newest: PlanVersion | undefined;
  solders: readonly Solder[];
  /** Asks for the versions again. */
  again: () => void;
}

const USUAL_BENCH: Bench = { torch: 'medium', support: 'brick' };

/** One plan at work: the order on one side, what a heat does on the other, computed anew with every change. */
export function PlanBoard({ piece, design, newest, solders, again }: Props) {
  const { say, named, tell } = useWords();
  const single = useMemo(() => singleParts(design), [design]);
  const truly = useMemo(() => asItIs(single, piece, solders), [single, piece, solders]);
  const byHand = useMemo(() => oneHeatEach(truly, solders), [truly, solders]);
  const work = usePlanDraft(piece.id, newest);
  const { plan, change } = work;
  useFreshness(again);
  const bench = newest?.bench ?? USUAL_BENCH;
  return (
    <>
      {newest && (
        <p class="soft">
          {say('plan.version', {
            number: newest.number,
            origin: named('plan.origin', newest.origin),
            state: named('plan.state', newest.state),
          })}
        </p>
      )}
      {work.bringBack && !work.isChanged && (
        <div class="notice row">
          <span>{say('plan.aside')}</span>
          <Button onClick={work.bringBack}>{say('plan.bringBack')}</Button>
        </div>
      )}
      {newest && !work.isChanged && newest.short.length > 0 && (
        <ul class="notice notice-caution">
          {newest.short.map(({ solder, says }) => (
            <li key={solder}>{tell(says)}</li>
          ))}
        </ul>
      )}
      {newest && !newest.isCurrent && <p class="notice notice-caution">{say('plan.notCurrent')}</p>}
      {plan === null ? (
        <div class="card">
          <p>{say('plan.none')}</p>
          <Button onClick={() => change(byHand)}>{say('plan.byHand')}</Button>
        </div>
      ) : (
        <CheckedPlan
          {...{ piece, design: isOfTheRest(plan, truly) ? truly : single, solders, bench, plan, work, newest, again }}
        />
      )}
      <SearchPanel design={truly} solders={solders} bench={bench} take={change} />
    </>
  );
}

interface CheckedProps {
  piece: Piece;
  design: Design;
  solders: readonly Solder[];
  bench: Bench;
  plan: Plan;
  work: PlanDraft;
  newest: PlanVersion | undefined;
  again: () => void;
}

function CheckedPlan({ piece, design, solders, bench, plan: mine, work, newest, again }: CheckedProps) {
  const { isChanged, isBehind: isOld, change, drop } = work;
  const [looksAtTheirs, setLooksAtTheirs] = useState(false);
  const showsTheirs = looksAtTheirs && isOld && newest !== undefined;
  const plan = showsTheirs ? (newest.plan as unknown as Plan) : mine;
  const { say, tell } = useWords();
  const [chosen, setShown] = useState<number>();
  const { outcome, isBehind, isOld: isOfAnother, error } = useCheck({ design, solders, bench, plan, histories: true });
  const after = useRef(0);
  after.current = work.baseNumber;
  const saving = useSending(async (confirming) => {
    try {
      await bodyOf(
        api.POST('/api/v1/pieces/{id}/plans', {
          params: { path: { id: piece.id } },
          // The page holds the plan read-only; the wire type has plain lists.
          body: { plan: mine as never, bench: bench as never, after: after.current },
          headers: confirming,
        }),
      );
    } catch (error) {
      // Somebody was quicker: their version is fetched, and what is to become of this one is asked.
      if (error instanceof ApiProblem && error.slug === 'stale') return again();
      throw error;
    }
    drop();
    again();
  });
  const check = outcome?.outcome === 'checked' ? outcome.check : undefined;
  const heat = Math.min(chosen ?? worthASight(check), plan.heats.length - 1);
  return (
    <>
      {isOld && newest && (
        <BehindNotice
          {...{ work, mine, newest, looksAtTheirs, setLooksAtTheirs }}
          layOver={() => {
            setLooksAtTheirs(false);
            work.layOver();
            after.current = newest.number;
            void saving.send();
          }}
        />
      )}
      <fieldset disabled={showsTheirs} class="plan-sheet">
        <div class="plan-verdict" aria-live="polite" aria-busy={isBehind}>
          {check && (
            <strong
              class={`word word-${check.verdict === 'problem' ? 'runs' : check.verdict === 'caution' ? 'softens' : 'solid'}`}
            >
              {say(`plan.verdict.${check.verdict}`, { count: check.problems.length })}
            </strong>
          )}{' '}
          {isBehind && <span class="soft">{say('plan.computing')}</span>}
        </div>
        {outcome?.outcome === 'faults' && (
          <div class="notice notice-problem" role="alert">
            <p>{say('plan.faults')}</p>
            <ul>
              {outcome.faults.map(({ pointer, detail }) => (
                <li key={pointer + detail}>{tell(detail)}</li>
              ))}
            </ul>
          </div>
        )}
        <ProblemNotice error={error} />
        <div class="plan-board" aria-busy={isOfAnother}>
          <HeatList {...{ plan, design, solders, shown: heat, check }} onShow={setShown} onChange={change} />
          {check?.heats[heat] && (
            <HeatView
              {...{ design, solders, bench, plan }}
              heat={plan.heats[heat]!}
              check={check.heats[heat]}
              onChange={change}
            />
          )}
        </div>
        {check && check.problems.length > 0 && <PlanProblems problems={check.problems} take={change} />}
        <p class="soft">{say('plan.trustLine')}</p>
        {check && (
          <details class="card">
            <summary>{say('plan.assumptions')}</summary>
            <p>{tell(check.assumptions.uncertainty)}</p>
            <ul>
              {check.assumptions.leavesOut.map((one) => (
                <li key={one}>{tell(one)}</li>
              ))}
            </ul>
            <p>{tell(check.assumptions.deferral)}</p>
          </details>
        )}
      </fieldset>
      {isChanged && !isOld && (
        <div class="notice row">
          <span>{say('plan.changed')}</span>
          <Button kind="main" busy={saving.busy} onClick={() => void saving.send()}>
            {say('plan.save')}
          </Button>
          <Button onClick={drop}>{say('shell.draftDrop')}</Button>
        </div>
      )}
      <ProblemNotice error={saving.error} sending={saving} />
    </>
  );
}

/** The heat to look at first: one that goes wrong, else the one that comes nearest to it. */
function worthASight(check: PlanCheck | undefined): number {
  if (!check) return 0;
  const wrong = check.problems[0];
  if (wrong) return wrong.heat - 1;
  const nearest = (index: number) =>
    Math.min(Infinity, ...check.heats[index]!.earlierJoints.map(({ solidMarginK }) => solidMarginK));
  return check.heats.map((_, index) => index).sort((a, b) => nearest(a) - nearest(b))[0] ?? 0;
}

/** Copies of parts and joints spelled out, so that each can be moved by itself. */
function singleParts({ parts, joints, contacts, rules }: DesignOfPiece): Design {
  return expandDesign({ parts, joints, ...(contacts && { contacts }), ...(rules && { rules }) }).design;
}

/** Whoever comes back to the page is shown what was saved meanwhile. */
function useFreshness(again: () => void): void {
  useEffect(() => {
    const look = () => document.visibilityState === 'visible' && again();
    document.addEventListener('visibilitychange', look);
    window.addEventListener('focus', look);
    return () => {
      document.removeEventListener('visibilitychange', look);
      window.removeEventListener('focus', look);
    };
  }, [again]);
}

/** What a maker begins with: the joints in the order they were drawn, each in a heat of its own with the highest solder it may have. */
function oneHeatEach({ joints, rules }: Design, solders: readonly Solder[]): Plan {
  const falling = solders.toSorted((a, b) => b.liquidusC - a.liquidusC);
  const heats = joints
    .filter(({ made }) => made === undefined)
    .map(({ id }) => {
      const { only, exclude = [] } = rules?.grades?.[id] ?? {};
      const solder = only ?? falling.find((one) => !exclude.includes(one.id))?.id;
      return { joints: [id], ...(solder !== undefined && { solder }) };
    });
  return { heats };
}
