'use client';

import { useEffect, useState } from 'react';
import type { RecordQuality } from '../../shared/record-quality.ts';
import { messageOf, type OpenRecordSet } from './record-sets.ts';

export interface QualityInUse {
  readonly quality: RecordQuality | null;
  readonly trouble: string | null;
}

/** The judgement of the open records, made once a record set. */
export function useRecordQuality(open: OpenRecordSet): QualityInUse {
  const [came, setCame] = useState<QualityInUse & { open: OpenRecordSet }>();
  useEffect(() => {
    let wanted = true;
    open.desk.recordQuality().then(
      (quality) => wanted && setCame({ open, quality, trouble: null }),
      (error: unknown) => wanted && setCame({ open, quality: null, trouble: messageOf(error) }),
    );
    return () => {
      wanted = false;
    };
  }, [open]);
  return came?.open === open ? came : { quality: null, trouble: null };
}
