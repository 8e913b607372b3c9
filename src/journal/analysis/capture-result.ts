import { type CaptureDeclaration, type CaptureReading, readCapture } from '../../capture/index.ts';
import { type Analysed, type AnalysisRequest, analyse } from './analyse.ts';
import { type Peaks, peaksOf } from './peaks.ts';

/** What was read and computed from one capture file under one declaration. */
export interface CaptureResult {
  reading: CaptureReading;
  analysed: Analysed | null;
  /** Of the columns; empty where the file could not be read. */
  peaks: Peaks;
}

/** All that a result depends on besides the bytes of the file. */
export interface CaptureRequest {
  /** Path relative to the journal, which problems name. */
  file: string;
  declaration: CaptureDeclaration;
  settings: AnalysisRequest;
}

/** Reads and analyses the bytes of one capture file. */
export function captureResult(
  bytes: Uint8Array,
  { file, declaration, settings }: CaptureRequest,
): CaptureResult {
  const reading = readCapture(bytes, file, declaration);
  const { capture } = reading;
  return capture
    ? { reading, analysed: analyse(capture, settings), peaks: peaksOf(capture) }
    : { reading, analysed: null, peaks: new Map() };
}
