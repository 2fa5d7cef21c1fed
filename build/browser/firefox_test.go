package browser

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// firefox is one running Firefox, driven by its own remote protocol (Mozilla,
// "Marionette protocol", version 3): each message is its length, a colon and JSON.
type firefox struct {
	t    *testing.T
	conn net.Conn
	in   *bufio.Reader
	id   int
}

// openFirefox starts Firefox with a fresh profile, or skips the test where there is none.
func openFirefox(t *testing.T) *firefox {
	t.Helper()
	exe, err := exec.LookPath("firefox-esr")
	if err != nil {
		t.Skip("firefox-esr is not here (package firefox-esr): the single file is not tried in Firefox")
	}
	free, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	address := free.Addr().String()
	require.NoError(t, free.Close())
	_, port, err := net.SplitHostPort(address)
	require.NoError(t, err)
	profile, err := os.MkdirTemp("", "springrib-firefox")
	require.NoError(t, err)
	prefs := fmt.Sprintf("user_pref('marionette.port', %s);\nuser_pref('app.update.enabled', false);\nuser_pref('datareporting.policy.dataSubmissionEnabled', false);\nuser_pref('network.proxy.type', 1);\nuser_pref('network.proxy.http', '127.0.0.1');\nuser_pref('network.proxy.ssl', '127.0.0.1');\nuser_pref('network.proxy.http_port', 9);\nuser_pref('network.proxy.ssl_port', 9);\n", port)
	require.NoError(t, os.WriteFile(filepath.Join(profile, "user.js"), []byte(prefs), 0o644))
	cmd := exec.Command(exe, "--headless", "--marionette", "--no-remote", "--profile", profile)
	cmd.Env = append(os.Environ(), "HOME="+profile, "MOZ_CRASHREPORTER_DISABLE=1")
	cmd.SysProcAttr = &syscall.SysProcAttr{Setpgid: true} // its helpers end with it
	require.NoError(t, cmd.Start())
	t.Cleanup(func() {
		syscall.Kill(-cmd.Process.Pid, syscall.SIGKILL)
		cmd.Wait()
		os.RemoveAll(profile)
	})
	f := &firefox{t: t}
	for end := time.Now().Add(patience); ; time.Sleep(100 * time.Millisecond) {
		if f.conn, err = net.Dial("tcp", address); err == nil {
			break
		}
		require.True(t, time.Now().Before(end), "Firefox does not answer: %v", err)
	}
	t.Cleanup(func() { f.conn.Close() })
	f.in = bufio.NewReader(f.conn)
	f.read() // who it is
	f.ask("WebDriver:NewSession", map[string]any{"pageLoadStrategy": "normal"})
	return f
}

func (f *firefox) read() (message json.RawMessage) {
	f.t.Helper()
	require.NoError(f.t, f.conn.SetReadDeadline(time.Now().Add(2*patience)))
	length, err := f.in.ReadString(':')
	require.NoError(f.t, err)
	n, err := strconv.Atoi(strings.TrimSuffix(length, ":"))
	require.NoError(f.t, err)
	message = make([]byte, n)
	_, err = io.ReadFull(f.in, message)
	require.NoError(f.t, err)
	return message
}

// ask sends a command and returns the value of its answer.
func (f *firefox) ask(command string, parameters map[string]any) json.RawMessage {
	f.t.Helper()
	f.id++
	out, err := json.Marshal([]any{0, f.id, command, parameters})
	require.NoError(f.t, err)
	_, err = fmt.Fprintf(f.conn, "%d:%s", len(out), out)
	require.NoError(f.t, err)
	var answer [4]json.RawMessage
	require.NoError(f.t, json.Unmarshal(f.read(), &answer))
	require.Equal(f.t, "null", string(answer[2]), "%s: %s", command, answer[2])
	var result struct{ Value json.RawMessage }
	if json.Unmarshal(answer[3], &result) == nil && result.Value != nil {
		return result.Value
	}
	return answer[3]
}

// eval evaluates an expression in the page.
func (f *firefox) eval(expression string) (value any) {
	f.t.Helper()
	raw := f.ask("WebDriver:ExecuteScript", map[string]any{"script": "return (" + expression + ")", "args": []any{}, "sandbox": nil})
	require.NoError(f.t, json.Unmarshal(raw, &value))
	return value
}

func (f *firefox) wait(expression string) {
	f.t.Helper()
	cameTo(f.t, "Firefox", f.eval, expression)
}

// cameTo waits until an expression holds in another engine.
func cameTo(t testing.TB, engine string, eval func(string) any, expression string) {
	t.Helper()
	for end := time.Now().Add(patience); eval("Boolean("+expression+")") != true; time.Sleep(100 * time.Millisecond) {
		require.True(t, time.Now().Before(end), "%s never came to %s", engine, expression)
	}
}

func TestTheSingleFileInFirefox(t *testing.T) {
	url := OnDisk(t, dist)
	f := openFirefox(t)
	f.ask("WebDriver:Navigate", map[string]any{"url": url})
	f.wait(settled)
	assert.NotEmpty(t, f.eval(`document.querySelector('springrib-verdict h1').textContent`))
	assert.Greater(t, f.eval(`document.querySelectorAll('svg.drawing path').length`), 10.0)
	f.eval(set("name", "Firefox lamp"))
	f.wait(settled + ` && ` + state + `.asked.picture.doc.name === 'Firefox lamp' && ` + state + `.kept.designs().length === 1`)
	f.eval(state + `.undo()`)
	assert.NotEqual(t, "Firefox lamp", f.eval(state+`.doc.name`))
	// The view in space is unpacked and allowed by the content policy, where there is WebGL.
	f.wait(`document.querySelector('springrib-space')?.view || document.querySelector('springrib-space svg.drawing')`)
	if f.eval(`Boolean(document.createElement('canvas').getContext('webgl2'))`) == true {
		assert.Equal(t, true, f.eval(`'springribScene' in globalThis`))
	}
	// A link, unpacked by this browser's own streams, and one packed by them.
	text, ok := f.eval(`JSON.stringify({...` + state + `.doc, name: 'By link'})`).(string)
	require.True(t, ok)
	f.ask("WebDriver:Navigate", map[string]any{"url": url + linkOf(t, text)})
	f.wait(state + `.kept.guest && ` + state + `.doc.name === 'By link'`)
	f.eval(`document.querySelector('springrib-kept').copy()`)
	f.wait(`document.querySelector('springrib-kept').said || document.querySelector('springrib-kept').link`)
}
