// Finds the same slip in every text, without reading it.
import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { serve } from './serve.mjs';

serve(createConnection(ProposedFeatures.all));
