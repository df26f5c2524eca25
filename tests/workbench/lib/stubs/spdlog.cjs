// Stands in for the native module @vscode/spdlog, which --ignore-scripts leaves unbuilt.
// Log files matter: the Output panel shows an extension's output channel by reading its log file.
const fs = require('node:fs');
const path = require('node:path');

class Logger {
  constructor(_type, _name, file) {
    fs.mkdirSync(path.dirname(file), { recursive: true });
    this.file = file;
    this.level = 2;
    this.plain = false;
    ['trace', 'debug', 'info', 'warn', 'error', 'critical'].forEach((name, level) => {
      this[name] = (message) => {
        if (level >= this.level) {
          fs.appendFileSync(file, this.plain ? message : `${new Date().toISOString()} [${name}] ${message}\n`);
        }
      };
    });
  }
  getLevel() {
    return this.level;
  }
  setLevel(level) {
    this.level = level;
  }
  clearFormatters() {
    this.plain = true;
  }
  setPattern() {}
  flush() {}
  drop() {}
}

exports.version = 0;
exports.Logger = Logger;
exports.setLevel = () => {};
exports.setFlushOn = () => {};
exports.createRotatingLogger = async (...args) => new Logger('rotating', ...args);
exports.createAsyncRotatingLogger = async (...args) => new Logger('rotating_async', ...args);
