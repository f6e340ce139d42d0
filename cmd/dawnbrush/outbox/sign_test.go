package outbox

import (
	"encoding/base64"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// RFC 9421 appendix B.2.5, "Signing a Request Using hmac-sha256", with the key of
// appendix B.1.5. The RFC's example names no algorithm.
func TestSignatureOfRFC9421(t *testing.T) {
	key, err := base64.StdEncoding.DecodeString("uzvJfB4u3N0Jy4T7NZ75MDVcr8zSTInedJtkgcu46YW4XByzNJjxBdtjUkdJPBtbmHhIDi6pcl8jsasjlTMtDQ==")
	require.NoError(t, err)
	parts := []part{{"date", "Tue, 20 Apr 2021 02:07:55 GMT"}, {"@authority", "example.com"}, {"content-type", "application/json"}}
	params := signatureParams(parts, time.Unix(1618884473, 0), "test-shared-secret", "")
	assert.Equal(t, `("date" "@authority" "content-type");created=1618884473;keyid="test-shared-secret"`, params)
	base := signatureBase(parts, params)
	assert.Equal(t, "\"date\": Tue, 20 Apr 2021 02:07:55 GMT\n\"@authority\": example.com\n\"content-type\": application/json\n"+
		"\"@signature-params\": (\"date\" \"@authority\" \"content-type\");created=1618884473;keyid=\"test-shared-secret\"", base)
	assert.Equal(t, ":pxcQw6G3AjtMBQjwo8XzkZf/bws5LelbaMk5rGIGtE8=:", byteSequence(sign(base, key)))
}

// The digest of {"hello": "world"} and a line feed, the example that RFC 9530 carries
// through its appendix B (memory; a second program gives the same).
func TestDigestField(t *testing.T) {
	assert.Equal(t, "sha-256=:RK/0qy18MlBSVnWgjwz6lZEWjP/lF5HF9bvEF8FabDg=:", digestField([]byte("{\"hello\": \"world\"}\n")))
}
