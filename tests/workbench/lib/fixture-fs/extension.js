// A workspace for the web host: the fixture folder, loaded over HTTP into an in-memory file system (fixture:/workspace).
const vscode = require('vscode');

exports.activate = async (context) => {
  const response = await fetch(vscode.Uri.joinPath(context.extensionUri, '..', 'workspace.json').toString(true));
  const fs = new MemoryFileSystem();
  for (const [name, base64] of Object.entries(await response.json())) {
    fs.put(`/workspace/${name}`, Uint8Array.from(atob(base64), (c) => c.charCodeAt(0)));
  }
  context.subscriptions.push(
    vscode.workspace.registerFileSystemProvider('fixture', fs, { isCaseSensitive: true }),
    // Proposed API, allowed by the host page. Without it findFiles and Quick Open find nothing, and the start waits
    // seconds for a search that no one answers. VS Code applies the globs itself.
    vscode.workspace.registerFileSearchProvider('fixture', {
      provideFileSearchResults: (_query, { folder }) => fs.files(folder),
    }),
  );
};

class MemoryFileSystem {
  entries = new Map([['/', folder()]]); // path -> { type, ctime, mtime, size, data? }
  changed = new vscode.EventEmitter();
  onDidChangeFile = this.changed.event;

  put(path, data) {
    for (let at = parent(path); !this.entries.has(at); at = parent(at)) {
      this.entries.set(at, folder());
    }
    const ctime = this.entries.get(path)?.ctime ?? Date.now();
    this.entries.set(path, { type: vscode.FileType.File, ctime, mtime: Date.now(), size: data.length, data });
  }

  get(uri) {
    const entry = this.entries.get(uri.path);
    if (!entry) {
      throw vscode.FileSystemError.FileNotFound(uri);
    }
    return entry;
  }

  files(folder) {
    return [...this.entries]
      .filter(([path, entry]) => entry.type === vscode.FileType.File && path.startsWith(`${folder.path}/`))
      .map(([path]) => folder.with({ path }));
  }

  fire(type, uri) {
    this.changed.fire([{ type: vscode.FileChangeType[type], uri }]);
  }

  watch() {
    return new vscode.Disposable(() => {});
  }
  stat(uri) {
    return this.get(uri);
  }
  readFile(uri) {
    return this.get(uri).data;
  }
  readDirectory(uri) {
    this.get(uri);
    return [...this.entries]
      .filter(([path]) => path !== '/' && parent(path) === uri.path)
      .map(([path, entry]) => [path.slice(path.lastIndexOf('/') + 1), entry.type]);
  }
  createDirectory(uri) {
    this.entries.set(uri.path, folder());
    this.fire('Created', uri);
  }
  writeFile(uri, data, { create, overwrite }) {
    const exists = this.entries.has(uri.path);
    if (!exists && !create) {
      throw vscode.FileSystemError.FileNotFound(uri);
    }
    if (exists && create && !overwrite) {
      throw vscode.FileSystemError.FileExists(uri);
    }
    this.put(uri.path, data);
    this.fire(exists ? 'Changed' : 'Created', uri);
  }
  delete(uri) {
    this.get(uri);
    for (const path of [...this.entries.keys()]) {
      if (path === uri.path || path.startsWith(`${uri.path}/`)) {
        this.entries.delete(path);
      }
    }
    this.fire('Deleted', uri);
  }
  rename(from, to) {
    this.get(from);
    for (const [path, entry] of [...this.entries]) {
      if (path === from.path || path.startsWith(`${from.path}/`)) {
        this.entries.delete(path);
        this.entries.set(to.path + path.slice(from.path.length), entry);
      }
    }
    this.fire('Deleted', from);
    this.fire('Created', to);
  }
}

function folder() {
  return { type: vscode.FileType.Directory, ctime: 0, mtime: 0, size: 0 };
}

function parent(path) {
  return path.slice(0, path.lastIndexOf('/')) || '/';
}
