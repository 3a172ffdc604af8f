'use client';

import '../../_state/no-eval.ts';
import { usePathname } from 'next/navigation';
import { useEffect, type ReactNode } from 'react';
import { setDownSearch } from '../../_state/link.ts';
import { briefStore } from '../../_state/brief/brief-store.ts';
import { keptRecords } from '../../_state/keeping/kept-records.ts';
import { keepForOffline } from '../../_state/offline.ts';
import { useAgreedToKeeping } from '../../_state/use-preferences.ts';
import { useRecordSet } from '../../_state/use-record-set.ts';
import { useView } from '../../_state/use-view.ts';
import { MadeFromNotice } from '../share/made-from-notice.tsx';
import { ShareView } from '../share/share-view.tsx';
import { columnsPage, hasScope } from '../contents.ts';
import { DropTarget } from '../records/drop-target.tsx';
import { KeepingNotice } from '../records/keeping.tsx';
import { MapsNotice } from '../columns/maps-notice.tsx';
import { TroubleNotice } from '../records/trouble-notice.tsx';
import { ScopeLine } from '../scope/scope-line.tsx';
import { Tour } from '../first-run/tour.tsx';
import { ContentsLine } from './contents-line.tsx';
import { PageFoot } from './page-foot.tsx';
import { useGo } from './use-go.ts';
import { PageHead } from './page-head.tsx';

/** What stays while pages change: head, contents line, scope, foot; and the record set behind them. */
export function Frame({ children }: { children: ReactNode }) {
  const path = usePathname();
  const scoped = hasScope(path);
  useEffect(setDownSearch, [path]);
  useEffect(() => {
    void keptRecords.openAtStart();
    void briefStore.load();
  }, []);
  useAgreedToKeeping();
  const { waiting, open } = useRecordSet();
  const isOpen = open !== null;
  useEffect(() => {
    // Not before: the engine and the records come first.
    if (isOpen) keepForOffline();
  }, [isOpen]);
  const go = useGo();
  useEffect(() => {
    if (waiting !== null) go(columnsPage);
  }, [waiting, go]);
  return (
    <div className="page">
      <a className="skip" href="#main">
        Skip to the answer
      </a>
      <PageHead />
      <ContentsLine />
      <Tour />
      <TroubleNotice />
      <MapsNotice />
      <KeepingNotice />
      <LinkNotices />
      <MadeFromNotice />
      {scoped && <ScopeLine />}
      <main id="main" tabIndex={-1}>
        {children}
      </main>
      {scoped && <ShareView />}
      <PageFoot />
      <DropTarget />
    </div>
  );
}

function LinkNotices() {
  const { notices } = useView();
  return (
    <div role="status">
      {notices.map((notice) => (
        <p key={notice} className="notice">
          {notice}
        </p>
      ))}
    </div>
  );
}
