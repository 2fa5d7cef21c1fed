package main

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"

	"springrib/internal/view"
	"springrib/internal/wire"
)

// firstAnswer is what the page shows before its core is there: the form, and the plan of
// the first example, as that core would answer.
type firstAnswer struct {
	Form    json.RawMessage `json:"form"`
	Plan    json.RawMessage `json:"plan"`
	Streams [][]float32     `json:"streams"`
}

// firstQuestion is how the page asks for the plan of a design that it opens with.
func firstQuestion(design json.RawMessage) wire.Request {
	return wire.Request{Kind: "plan", Design: design, Brief: true}
}

// makeFirst works the first answer out. It runs the core natively, which gives the same
// bytes as wasm.
func makeFirst() ([]byte, error) {
	form, _, err := answered(wire.Request{Kind: "fields"})
	if err != nil {
		return nil, err
	}
	var reply wire.Reply
	if err := json.Unmarshal(form, &reply); err != nil {
		return nil, err
	}
	if len(reply.Controls.Examples) == 0 {
		return nil, errors.New("there is no example to open the page with")
	}
	plan, streams, err := answered(firstQuestion(reply.Controls.Examples[0].Design))
	if err != nil {
		return nil, err
	}
	return json.Marshal(firstAnswer{form, plan, streams})
}

// answered asks the core and returns its reply as it stands.
func answered(q wire.Request) (reply []byte, streams [][]float32, err error) {
	request, err := json.Marshal(q)
	if err != nil {
		return nil, nil, err
	}
	reply, streams = wire.Answer(view.New(), request)
	var failed struct{ Error string }
	if err := json.Unmarshal(reply, &failed); err != nil {
		return nil, nil, err
	}
	if failed.Error != "" {
		return nil, nil, errors.New(failed.Error)
	}
	return reply, streams, nil
}

// firstBlock is the element that brings the first answer along. What the page keeps of
// later answers counts only with the build that gave them.
func firstBlock(p pieces) (string, error) {
	packed, err := pack(p.first)
	if err != nil {
		return "", err
	}
	sum := sha256.New()
	for _, part := range [][]byte{p.core, p.first, []byte(p.script)} {
		one := sha256.Sum256(part)
		sum.Write(one[:])
	}
	build := hex.EncodeToString(sum.Sum(nil)[:8])
	return block("first", packed, fmt.Sprintf(` data-build="%s"`, build)), nil
}
