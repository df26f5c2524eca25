-- What a baker would do: wait for the findings of the open file, then ask about the place under the cursor.
local function tell(found) io.stdout:write('FOUND ' .. vim.fn.json_encode(found) .. '\n') end

vim.wait(60000, function() return #vim.diagnostic.get(0) > 0 end, 20)
local diagnostics = {}
for _, one in ipairs(vim.diagnostic.get(0)) do
  table.insert(diagnostics, { code = one.code, message = one.message, line = one.lnum, column = one.col, endColumn = one.end_col })
end
vim.fn.search('bread flour')
local answers = vim.lsp.buf_request_sync(0, 'textDocument/hover', vim.lsp.util.make_position_params(), 60000)
local hover = ''
for _, answer in pairs(answers or {}) do
  if answer.result then hover = answer.result.contents.value end
end
tell({ diagnostics = diagnostics, hover = hover })
vim.cmd('qall!')
