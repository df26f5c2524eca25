/** The colours of the editor's four default themes that the preview's page asks for: Light Modern, Dark Modern, and both of high contrast. */

export interface Theme {
  readonly name: string;
  /** As the editor marks the body of a page. */
  readonly bodyClass: string;
  readonly colours: Readonly<Record<string, string>>;
}

const FONT = { 'font-family': 'system-ui, sans-serif', 'font-size': '13px' };

export const THEMES: readonly Theme[] = [
  {
    name: 'light', bodyClass: 'vscode-light',
    colours: {
      ...FONT, 'editor-foreground': '#3b3b3b', 'editor-background': '#ffffff', descriptionForeground: '#3b3b3b', 'editorWidget-border': '#c8c8c8',
      'textLink-foreground': '#005fb8', focusBorder: '#005fb8', 'charts-yellow': '#bf8803', 'charts-blue': '#0063d3', 'charts-green': '#388a34', 'charts-purple': '#652d90',
      'editorError-foreground': '#e51400', 'editorWarning-foreground': '#bf8803', 'editorInfo-foreground': '#0063d3',
      'input-foreground': '#3b3b3b', 'input-background': '#ffffff', 'input-border': '#cecece', 'list-hoverBackground': '#f2f2f2',
    },
  },
  {
    name: 'dark', bodyClass: 'vscode-dark',
    colours: {
      ...FONT, 'editor-foreground': '#cccccc', 'editor-background': '#1f1f1f', descriptionForeground: '#9d9d9d', 'editorWidget-border': '#454545',
      'textLink-foreground': '#4daafc', focusBorder: '#0078d4', 'charts-yellow': '#cca700', 'charts-blue': '#59a4f9', 'charts-green': '#89d185', 'charts-purple': '#b180d7',
      'editorError-foreground': '#f14c4c', 'editorWarning-foreground': '#cca700', 'editorInfo-foreground': '#59a4f9',
      'input-foreground': '#cccccc', 'input-background': '#313131', 'input-border': '#3c3c3c', 'list-hoverBackground': '#2a2d2e',
    },
  },
  {
    name: 'high contrast dark', bodyClass: 'vscode-high-contrast',
    colours: {
      ...FONT, 'editor-foreground': '#ffffff', 'editor-background': '#000000', descriptionForeground: '#ffffff', 'editorWidget-border': '#6fc3df', contrastBorder: '#6fc3df',
      'textLink-foreground': '#21a6ff', focusBorder: '#f38518', 'charts-yellow': '#ffd370', 'charts-blue': '#59a4f9', 'charts-green': '#89d185', 'charts-purple': '#b180d7',
      'editorError-foreground': '#f48771', 'editorWarning-foreground': '#ffd370', 'editorInfo-foreground': '#59a4f9',
      'input-foreground': '#ffffff', 'input-background': '#000000', 'input-border': '#6fc3df',
    },
  },
  {
    name: 'high contrast light', bodyClass: 'vscode-high-contrast-light vscode-high-contrast',
    colours: {
      ...FONT, 'editor-foreground': '#292929', 'editor-background': '#ffffff', descriptionForeground: '#292929', 'editorWidget-border': '#0f4a85', contrastBorder: '#0f4a85',
      'textLink-foreground': '#0f4a85', focusBorder: '#006bbd', 'charts-yellow': '#895503', 'charts-blue': '#0063d3', 'charts-green': '#374e06', 'charts-purple': '#652d90',
      'editorError-foreground': '#b5200d', 'editorWarning-foreground': '#895503', 'editorInfo-foreground': '#0063d3',
      'input-foreground': '#292929', 'input-background': '#ffffff', 'input-border': '#0f4a85',
    },
  },
];
