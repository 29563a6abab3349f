import type { Result } from '../../core/basics/result.ts'
import { readSiteFile } from '../../core/text/readSiteFile.ts'
import {
  readRecordServerFile,
  RECORD_SERVER_FILE,
  type RecordServerFile,
} from './recordServerFile.ts'

/**
 * What the site says of its record server in the file beside the page, which is kept with the page for when there is no
 * network.
 * @param readText rejects where there is none
 */
export async function findRecordServer(
  readText: (path: string, most_B: number) => Promise<string>,
): Promise<Result<RecordServerFile> | undefined> {
  const text = await readSiteFile(readText, RECORD_SERVER_FILE)
  return text === undefined ? undefined : readRecordServerFile(text)
}
