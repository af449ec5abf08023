-- A second, independent client of the language server: neovim, without its configuration.
-- Environment: NODE, SERVER (the stdio language server), TASK (JSON: file, hover, hint, fault; lines from 0).
local task = vim.fn.json_decode(os.getenv('TASK'))
local passed, failed = 0, 0
-- Other suites run beside this one: a busy machine is slow, and a fault shows all the same.
local patience_ms = 60000

local function step(name, act)
  local ok, told = pcall(act)
  if ok then passed = passed + 1 else failed = failed + 1 end
  io.stdout:write((ok and '  ok   ' or '  FAIL ') .. name .. (told and (': ' .. tostring(told)) or '') .. '\n')
end

local function ask(id, method, params)
  local replies = vim.lsp.buf_request_sync(0, method, params, patience_ms)
  assert(replies and replies[id], method .. ' was not answered')
  assert(not replies[id].err, vim.inspect(replies[id].err))
  return replies[id].result
end

local function contains(text, wanted)
  assert(text and text:find(wanted, 1, true), ('%q wanted in %s'):format(wanted, text))
  return wanted
end

local function label(hint)
  if type(hint.label) == 'string' then return hint.label end
  return table.concat(vim.tbl_map(function(part) return part.value end, hint.label))
end

--- Diagnostics of a line that hold a text.
local function told(line, wanted)
  return vim.tbl_filter(function(one)
    return one.lnum == line and one.message:find(wanted, 1, true) ~= nil
  end, vim.diagnostic.get(0))
end

vim.cmd('edit ' .. vim.fn.fnameescape(task.file))
local id = vim.lsp.start_client({
  name = 'groundbass', cmd = { os.getenv('NODE'), os.getenv('SERVER'), '--stdio' }, root_dir = task.root,
})
assert(id, 'the server did not start')
vim.lsp.buf_attach_client(0, id)
local client = vim.lsp.get_client_by_id(id)

step('diagnostics arrive', function()
  assert(vim.wait(patience_ms, function() return client.initialized and #vim.diagnostic.get(0) > 0 end, 20), 'none')
  return #vim.diagnostic.get(0)
end)
for _, fault in ipairs(task.faults) do
  step('line ' .. (fault.line + 1) .. ' has a diagnostic', function()
    assert(#told(fault.line, fault.says) > 0, fault.says .. ' wanted')
    return told(fault.line, fault.says)[1].message
  end)
end
step('hover on the size tells the volume', function()
  local hover = ask(id, 'textDocument/hover', {
    textDocument = { uri = vim.uri_from_bufnr(0) }, position = { line = task.hover.line, character = task.hover.character },
  })
  return contains(hover.contents.value or hover.contents, task.hover.says)
end)
step('the hint has the distance by Pythagoras', function()
  local hints = ask(id, 'textDocument/inlayHint', {
    textDocument = { uri = vim.uri_from_bufnr(0) },
    range = { start = { line = task.hint.line, character = 0 }, ['end'] = { line = task.hint.line + 1, character = 0 } },
  })
  local texts = {}
  for _, hint in ipairs(hints) do
    if hint.position.line == task.hint.line then table.insert(texts, label(hint)) end
  end
  return contains(table.concat(texts, ' | '), task.hint.says)
end)
step('an edit in the editor takes its diagnostic away', function()
  local fault = task.faults[1]
  vim.api.nvim_buf_set_lines(0, fault.line, fault.line + 1, true, { fault.mended })
  assert(vim.wait(patience_ms, function() return #told(fault.line, fault.says) == 0 end, 20), 'it is still there')
end)
step('the server ends when it is told to', function()
  client.stop()
  assert(vim.wait(patience_ms, function() return client.is_stopped() end, 20), 'it runs on')
end)
io.stdout:write(passed .. ' passed, ' .. failed .. ' failed\n')
vim.cmd(failed == 0 and 'qall!' or 'cquit 1')
