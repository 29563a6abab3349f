/** What can keep a file from being read at all; the wording is in the language's `text` file. */
export type FileFaultId = 'tooLarge' | 'gone' | 'notUtf8' | 'tooLong' | 'failed'
export type FileTexts = Readonly<Record<FileFaultId, string>>
