package browser

import (
	"bytes"
	"encoding/json"
	"net"
	"net/http"
	"os"
	"os/exec"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// webkit is one running WebKit, driven by the W3C's WebDriver protocol.
type webkit struct {
	t       *testing.T
	session string
}

// background starts a program that ends with the test.
func background(t *testing.T, env []string, name string, args ...string) {
	t.Helper()
	cmd := exec.Command(name, args...)
	cmd.Env = append(os.Environ(), env...)
	cmd.SysProcAttr = &syscall.SysProcAttr{Setpgid: true} // its helpers end with it
	require.NoError(t, cmd.Start())
	t.Cleanup(func() {
		syscall.Kill(-cmd.Process.Pid, syscall.SIGKILL)
		cmd.Wait()
	})
}

// openWebKit starts WebKit on a screen of its own, or skips the test where there is none.
func openWebKit(t *testing.T) *webkit {
	t.Helper()
	for name, from := range map[string]string{"WebKitWebDriver": "webkit2gtk-driver", "Xvfb": "xvfb"} {
		if _, err := exec.LookPath(name); err != nil {
			t.Skipf("%s is not here (package %s): the page is not tried in WebKit", name, from)
		}
	}
	browser := ""
	for _, lib := range []string{"/usr/lib/x86_64-linux-gnu", "/usr/lib/aarch64-linux-gnu"} {
		for _, api := range []string{"4.1", "4.0", "6.0"} {
			file := lib + "/webkit2gtk-" + api + "/MiniBrowser"
			if _, err := os.Stat(file); err == nil && browser == "" {
				browser = file
			}
		}
	}
	if browser == "" {
		t.Skip("WebKit's MiniBrowser is not here (package webkit2gtk-driver)")
	}
	free, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	address := free.Addr().String()
	require.NoError(t, free.Close())
	_, port, err := net.SplitHostPort(address)
	require.NoError(t, err)
	home := t.TempDir()
	screen := ":97"
	background(t, nil, "Xvfb", screen, "-screen", "0", "1440x900x24", "-nolisten", "tcp")
	background(t, []string{"DISPLAY=" + screen, "HOME=" + home, "GDK_BACKEND=x11", "WEBKIT_DISABLE_SANDBOX_THIS_IS_DANGEROUS=1", "LIBGL_ALWAYS_SOFTWARE=1"}, "WebKitWebDriver", "--port="+port)
	w := &webkit{t: t, session: "http://" + address + "/session"}
	for end := time.Now().Add(patience); ; time.Sleep(100 * time.Millisecond) {
		c, err := net.Dial("tcp", address)
		if err == nil {
			c.Close()
			break
		}
		require.True(t, time.Now().Before(end), "WebKit does not answer: %v", err)
	}
	var made struct{ SessionID string }
	require.NoError(t, json.Unmarshal(w.ask("", map[string]any{"capabilities": map[string]any{"alwaysMatch": map[string]any{
		"webkitgtk:browserOptions": map[string]any{"binary": browser, "args": []string{"--automation"}}}}}), &made))
	require.NotEmpty(t, made.SessionID)
	w.session += "/" + made.SessionID
	return w
}

// ask sends a command and returns its value.
func (w *webkit) ask(path string, body map[string]any) json.RawMessage {
	w.t.Helper()
	text, err := json.Marshal(body)
	require.NoError(w.t, err)
	r, err := http.Post(w.session+path, "application/json", bytes.NewReader(text))
	require.NoError(w.t, err)
	defer r.Body.Close()
	var reply struct{ Value json.RawMessage }
	require.NoError(w.t, json.NewDecoder(r.Body).Decode(&reply))
	require.Equal(w.t, http.StatusOK, r.StatusCode, "%s: %s", path, reply.Value)
	return reply.Value
}

func (w *webkit) eval(expression string) (value any) {
	w.t.Helper()
	require.NoError(w.t, json.Unmarshal(w.ask("/execute/sync", map[string]any{"script": "return " + expression, "args": []any{}}), &value))
	return value
}

func (w *webkit) wait(expression string) {
	w.t.Helper()
	cameTo(w.t, "WebKit", w.eval, expression)
}

// In WebKit the page draws, takes what is typed, undoes it, keeps it, and shows the panel
// in space or a drawing in its place.
func TestThePageInWebKit(t *testing.T) {
	url := Serve(t, dist)
	w := openWebKit(t)
	w.ask("/url", map[string]any{"url": url})
	w.wait(settled)
	assert.Equal(t, "Sound.", strings.TrimSpace(w.eval(`document.querySelector('springrib-verdict h1').textContent`).(string)))
	assert.Greater(t, w.eval(`document.querySelectorAll('svg.drawing path').length`), 10.0)
	w.wait(`document.querySelector('springrib-space')?.view || document.querySelector('springrib-space svg.drawing')`)
	w.eval(set("name", "WebKit lamp"))
	w.wait(settled + ` && ` + state + `.asked.picture.doc.name === 'WebKit lamp' && ` + state + `.kept.designs().length === 1`)
	w.eval(state + `.undo()`)
	assert.NotEqual(t, "WebKit lamp", w.eval(state+`.doc.name`))
	w.eval(`document.querySelector('springrib-benchbar button').click()`)
	w.wait(`document.querySelector('.files .whole')`)
}
