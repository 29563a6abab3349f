/** So deep folders are looked into, and so many files are taken of them. */
const MOST_DEPTH = 5
const MOST_FILES = 500

/** Files that were dropped on the page, those in folders among them, in the order of their names. */
export async function droppedFiles({ items, files }: DataTransfer): Promise<readonly File[]> {
  // Asked for at once: the browser forgets them when the event is over.
  const entries = [...items].flatMap((item) => item.webkitGetAsEntry() ?? [])
  if (entries.length === 0) return [...files]
  const found = await Promise.all(entries.map((entry) => filesOf(entry, 0)))
  return found
    .flat()
    .filter(({ name }) => /\.(json|csv)$/i.test(name))
    .sort((a, b) => a.name.localeCompare(b.name))
    .slice(0, MOST_FILES)
}

async function filesOf(entry: FileSystemEntry, depth: number): Promise<readonly File[]> {
  if (isFile(entry)) {
    return new Promise((resolve) => entry.file((file) => resolve([file]), () => resolve([]))) // prettier-ignore
  }
  if (!isFolder(entry) || depth >= MOST_DEPTH) return []
  const reader = entry.createReader()
  const inside: FileSystemEntry[] = []
  // A browser gives a folder in parts, the last of them empty.
  for (let part = await partOf(reader); part.length > 0; part = await partOf(reader)) {
    inside.push(...part)
  }
  return (await Promise.all(inside.map((each) => filesOf(each, depth + 1)))).flat()
}

const partOf = (reader: FileSystemDirectoryReader): Promise<readonly FileSystemEntry[]> =>
  new Promise((resolve) => reader.readEntries(resolve, () => resolve([])))

const isFile = (entry: FileSystemEntry): entry is FileSystemFileEntry => entry.isFile
const isFolder = (entry: FileSystemEntry): entry is FileSystemDirectoryEntry => entry.isDirectory
