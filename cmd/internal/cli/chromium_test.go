package cli_test

import (
	"bufio"
	"bytes"
	"encoding/base64"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"os/exec"
	"strings"
	"testing"
	"time"
)

// A browser is a Chromium without a window, started once and driven over two pipes by
// the Chrome DevTools Protocol: messages in JSON, each ended by a zero byte.
type browser struct {
	to         io.Writer
	from       *bufio.Reader
	last       int
	session    string
	loaded     bool
	complaints []string // what pages complained of since they were last asked
}

// A message is a command, its answer, or an event.
type message struct {
	ID        int             `json:"id,omitempty"`
	Method    string          `json:"method,omitempty"`
	SessionID string          `json:"sessionId,omitempty"`
	Params    json.RawMessage `json:"params,omitempty"`
	Result    json.RawMessage `json:"result,omitempty"`
	Error     json.RawMessage `json:"error,omitempty"`
}

// startBrowser skips the test where there is none.
func startBrowser(t *testing.T) *browser {
	t.Helper()
	if testing.Short() {
		t.Skip("skipped: -short, and a browser takes its time")
	}
	for _, name := range []string{"chromium", "chromium-browser"} {
		if path, err := exec.LookPath(name); err == nil {
			return start(t, path)
		}
	}
	t.Skip("skipped: no chromium was found to look at the pages with")
	return nil
}

func start(t *testing.T, path string) *browser {
	t.Helper()
	theirs, to, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	from, answers, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(path, "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
		"--disable-component-update", "--disable-sync", "--hide-scrollbars", "--remote-debugging-pipe", "--user-data-dir="+t.TempDir(), "about:blank")
	cmd.ExtraFiles = []*os.File{theirs, answers} // 3 and 4, as the browser has it
	var stderr bytes.Buffer
	cmd.Stderr = &stderr
	cmd.WaitDelay = time.Second
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	_, _ = theirs.Close(), answers.Close()
	tooLong := time.AfterFunc(5*time.Minute, func() { _ = cmd.Process.Kill() })
	b := &browser{to: to, from: bufio.NewReader(from)}
	t.Cleanup(func() {
		b.call(t, "", "Browser.close", nil, nil)
		_ = cmd.Wait()
		tooLong.Stop()
		_, _ = to.Close(), from.Close()
		if t.Failed() {
			t.Logf("the browser said: %s", stderr.String())
		}
	})
	b.openTab(t)
	return b
}

// openTab opens the page that all files are shown in.
func (b *browser) openTab(t *testing.T) {
	t.Helper()
	var tab struct{ TargetID string }
	b.call(t, "", "Target.createTarget", map[string]any{"url": "about:blank"}, &tab)
	var joined struct{ SessionID string }
	b.call(t, "", "Target.attachToTarget", map[string]any{"targetId": tab.TargetID, "flatten": true}, &joined)
	b.session = joined.SessionID
	for _, domain := range []string{"Page", "Runtime", "Log"} {
		b.do(t, domain+".enable", nil, nil)
	}
}

// call sends a command and waits for its answer, hearing what happens meanwhile.
func (b *browser) call(t *testing.T, session, method string, params, result any) {
	t.Helper()
	b.last++
	m := message{ID: b.last, Method: method, SessionID: session}
	if params != nil {
		m.Params = encoded(t, params)
	}
	if _, err := b.to.Write(append(encoded(t, m), 0)); err != nil {
		t.Fatalf("%s: %v", method, err)
	}
	for {
		got := b.hear(t)
		if got.ID != b.last {
			continue
		}
		if got.Error != nil {
			t.Fatalf("%s: %s", method, got.Error)
		}
		if result != nil {
			if err := json.Unmarshal(got.Result, result); err != nil {
				t.Fatalf("%s: %v", method, err)
			}
		}
		return
	}
}

// do calls for the page.
func (b *browser) do(t *testing.T, method string, params, result any) {
	t.Helper()
	b.call(t, b.session, method, params, result)
}

func encoded(t *testing.T, v any) []byte {
	t.Helper()
	data, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// hear reads one message; of events it keeps that a page is there and its complaints.
func (b *browser) hear(t *testing.T) message {
	t.Helper()
	data, err := b.from.ReadBytes(0)
	if err != nil {
		t.Fatalf("the browser is gone: %v", err)
	}
	var m message
	if err := json.Unmarshal(bytes.TrimSuffix(data, []byte{0}), &m); err != nil {
		t.Fatal(err)
	}
	switch m.Method {
	case "Page.loadEventFired":
		b.loaded = true
	case "Runtime.consoleAPICalled", "Runtime.exceptionThrown", "Log.entryAdded":
		b.complaints = append(b.complaints, string(m.Params))
	}
	return m
}

// show opens a file in a window so wide and high, and gives what the browser complains of.
func (b *browser) show(t *testing.T, file string, width, height int) (complaints string) {
	t.Helper()
	b.do(t, "Emulation.setDeviceMetricsOverride", map[string]any{"width": width, "height": height, "deviceScaleFactor": 1, "mobile": false}, nil)
	b.loaded, b.complaints = false, nil
	var went struct{ ErrorText string }
	b.do(t, "Page.navigate", map[string]any{"url": "file://" + file}, &went)
	if went.ErrorText != "" {
		t.Fatalf("%s: %s", file, went.ErrorText)
	}
	for !b.loaded {
		b.hear(t)
	}
	return strings.Join(b.complaints, "\n")
}

// ask has the page work out an expression.
func (b *browser) ask(t *testing.T, expression string, result any) {
	t.Helper()
	var answer struct {
		Result           struct{ Value json.RawMessage }
		ExceptionDetails json.RawMessage
	}
	b.do(t, "Runtime.evaluate", map[string]any{"expression": expression, "returnByValue": true}, &answer)
	if answer.ExceptionDetails != nil {
		t.Fatalf("%s: %s", expression, answer.ExceptionDetails)
	}
	if err := json.Unmarshal(answer.Result.Value, result); err != nil {
		t.Fatalf("%s: %v", expression, err)
	}
}

// data returns the file that a command of the page makes: a picture, a print.
func (b *browser) data(t *testing.T, method string, params map[string]any) []byte {
	t.Helper()
	var made struct{ Data string }
	b.do(t, method, params, &made)
	data, err := base64.StdEncoding.DecodeString(made.Data)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// The browser complains where something is wrong: without that the checks of pages
// would hold for anything.
func complains(t *testing.T, b *browser) {
	t.Helper()
	for what, wrong := range map[string]string{"a picture that is not there": `<img src="none.png">`, "a script that fails": `<script>none()</script>`} {
		file := t.TempDir() + "/wrong.html"
		if err := os.WriteFile(file, []byte(fmt.Sprintf("<!DOCTYPE html><html><body>%s</body></html>", wrong)), 0o644); err != nil {
			t.Fatal(err)
		}
		if b.show(t, file, 800, 600) == "" {
			t.Errorf("%s: no complaint", what)
		}
	}
}
