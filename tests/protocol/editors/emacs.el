;; What a baker would do: wait for the findings of the open file, then ask about the place under the cursor.  -*- lexical-binding: t -*-
(require 'json)

(find-file (car command-line-args-left))
(setq command-line-args-left nil)
(run-hooks 'post-command-hook)

(defun proofsheet-wait-for (holds)
  "Let processes and timers run until HOLDS says so."
  (with-timeout (60 nil)
    (while (not (funcall holds)) (accept-process-output nil 0.05))))

(proofsheet-wait-for (lambda () (bound-and-true-p eglot--managed-mode)))
(flymake-start)
(proofsheet-wait-for #'flymake-diagnostics)
(let ((found
       (mapcar (lambda (one)
                 (save-excursion
                   (goto-char (flymake-diagnostic-beg one))
                   `((message . ,(flymake-diagnostic-text one))
                     (line . ,(1- (line-number-at-pos)))
                     (column . ,(current-column))
                     (endColumn . ,(progn (goto-char (flymake-diagnostic-end one)) (current-column))))))
               (flymake-diagnostics))))
  (goto-char (point-min))
  (search-forward "bread flour")
  (backward-char)
  (let ((hover (jsonrpc-request (eglot-current-server) :textDocument/hover (eglot--TextDocumentPositionParams))))
    (princ (format "FOUND %s\n"
                   (json-encode `((diagnostics . ,(vconcat found))
                                  (hover . ,(plist-get (plist-get hover :contents) :value))))))))
(eglot-shutdown (eglot-current-server))
