//go:build js && wasm

// Command wasm is the core as the page's worker loads it. It registers one function,
// springribAnswer: a request as JSON text in, {text, arrays} out, where text is the
// reply as JSON and arrays holds one Float32Array a drawing.
package main

import (
	"fmt"
	"runtime/debug"
	"unsafe"

	"github.com/hack-pad/safejs"

	"springrib/internal/view"
	"springrib/internal/wire"
)

func main() {
	// A plan leaves a few megabytes behind; collecting them every other time would be a
	// tenth of the wait while something is dragged.
	debug.SetGCPercent(400)
	debug.SetMemoryLimit(200 << 20) // a job of hundreds of parts collects earlier
	core := view.New()
	answer, err := safejs.FuncOf(func(_ safejs.Value, args []safejs.Value) any {
		out, err := call(core, args)
		if err != nil {
			return err.Error() // the worker reads a bare string as a broken core and is replaced
		}
		return out
	})
	if err != nil {
		panic(err)
	}
	if err := safejs.Global().Set("springribAnswer", answer); err != nil {
		panic(err)
	}
	select {}
}

// call hands one request to the bridge and wraps what comes back.
func call(core view.Core, args []safejs.Value) (any, error) {
	if len(args) != 1 {
		return nil, fmt.Errorf("springribAnswer takes one text, not %d values", len(args))
	}
	request, err := args[0].String()
	if err != nil {
		return nil, err
	}
	text, numbers := wire.Answer(core, []byte(request))
	arrays := make([]any, len(numbers))
	for i, n := range numbers {
		if arrays[i], err = float32Array(n); err != nil {
			return nil, err
		}
	}
	return map[string]any{"text": string(text), "arrays": arrays}, nil
}

// float32Array copies n into a new Float32Array with a buffer of its own, so that the
// worker can hand the buffer over. Wasm and typed arrays are both little-endian here.
func float32Array(n []float32) (safejs.Value, error) {
	class, err := safejs.Global().Get("Float32Array")
	if err != nil {
		return class, err
	}
	array, err := class.New(len(n))
	if err != nil || len(n) == 0 {
		return array, err
	}
	buffer, err := array.Get("buffer")
	if err != nil {
		return buffer, err
	}
	class, err = safejs.Global().Get("Uint8Array")
	if err != nil {
		return class, err
	}
	bytes, err := class.New(buffer)
	if err != nil {
		return bytes, err
	}
	_, err = safejs.CopyBytesToJS(bytes, unsafe.Slice((*byte)(unsafe.Pointer(&n[0])), 4*len(n)))
	return array, err
}
