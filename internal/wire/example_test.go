package wire_test

import (
	"encoding/json"
	"fmt"

	"springrib/internal/wire"
)

// shelf is a core that only saves.
type shelf struct{ wire.Core }

func (shelf) Save(design []byte) (wire.FileBody, error) {
	return wire.Body("lamp.json", "application/json", design), nil
}

func ExampleAnswer() {
	request, _ := json.Marshal(wire.Request{ID: 7, Kind: "save", Design: []byte(`{"name":"Lamp"}`)})
	reply, _ := wire.Answer(shelf{}, request)
	var r wire.Reply
	if err := json.Unmarshal(reply, &r); err != nil {
		panic(err)
	}
	fmt.Println(r.ID, r.File.Name, r.Error)
	// Output: 7 lamp.json
}
