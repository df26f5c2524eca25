import { BrowserMessageReader, BrowserMessageWriter, createConnection } from 'vscode-languageserver/browser';
import { serve } from './serve.mjs';

serve(createConnection(new BrowserMessageReader(self), new BrowserMessageWriter(self)));
