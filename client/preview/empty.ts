/** The inside of the page where there is no formula to show. */
export const EMPTY_PAGE = '<h1>No formula here yet</h1>\n'
  + '<p>Begin one with a line such as <code>formula "Country loaf"</code>. Or run “Proofsheet: New Formula…”, which asks three questions and writes a start.</p>';
