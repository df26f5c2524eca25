/** The task that looks through a folder by the command line and puts what it finds into Problems. */
import * as vscode from 'vscode';

const TYPE = 'proofsheet';

/** As in `tasks.json`. */
interface CheckTask extends vscode.TaskDefinition {
  /** Files and folders, from the workspace folder on; all of it where nothing is said. */
  readonly paths?: readonly string[];
}

export function registerTasks(): vscode.Disposable {
  return vscode.tasks.registerTaskProvider(TYPE, {
    provideTasks: () => (vscode.workspace.workspaceFolders ?? []).map((folder) => checkTask({ type: TYPE }, folder)),
    // A task that a file says: what it says stays, and the command is put in.
    resolveTask: ({ definition, scope, name }) => checkTask(definition as CheckTask, scope ?? vscode.TaskScope.Workspace, name),
  });
}

function checkTask(definition: CheckTask, scope: vscode.WorkspaceFolder | vscode.TaskScope, name = 'check formulas'): vscode.Task {
  const paths = (definition.paths ?? ['.']).map((value) => ({ value, quoting: vscode.ShellQuoting.Strong }));
  // Behind `--` a file's name is never taken for an option.
  return new vscode.Task(definition, scope, name, TYPE, new vscode.ShellExecution('proofsheet', ['check', '--', ...paths]), '$proofsheet');
}
