package sectorglass.volumes;

import java.nio.charset.StandardCharsets;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

import sectorglass.verify.Outcome;

/** Whether the JSON of a LUKS2 header is well formed (RFC 8259) and holds the five objects that cryptsetup writes. */
final class Luks2Json {
    private static final int DEEPEST = 32;

    private final String text;
    private final Set<String> top = new HashSet<>();
    private int at;

    private Luks2Json(String text) {
        this.text = text;
    }

    static Outcome check(byte[] area) {
        int end = 0;
        while (end < area.length && area[end] != 0) {
            end++;
        }
        Luks2Json json = new Luks2Json(new String(area, 0, end, StandardCharsets.UTF_8));
        boolean sound = json.value(0);
        json.blanks();
        if (!sound || json.at != json.text.length()) {
            return Outcome.failed("not JSON at character " + json.at, "well formed JSON");
        }
        for (String wanted : List.of("keyslots", "tokens", "segments", "digests", "config")) {
            if (!json.top.contains(wanted)) {
                return Outcome.failed("no object \"" + wanted + "\"", "keyslots, tokens, segments, digests, config");
            }
        }
        return Outcome.passed();
    }

    private boolean value(int depth) {
        blanks();
        if (depth > DEEPEST || at >= text.length()) {
            return false;
        }
        char c = text.charAt(at);
        if (c == '{' || c == '[') {
            return list(depth, c == '{');
        }
        if (c == '"') {
            return string() != null;
        }
        int start = at;
        while (at < text.length() && "+-.0123456789eEaflnrstu".indexOf(text.charAt(at)) >= 0) {
            at++;
        }
        return text.substring(start, at).matches("true|false|null|-?(0|[1-9][0-9]{0,30})(\\.[0-9]{1,30})?([eE][+-]?[0-9]{1,4})?");
    }

    private boolean list(int depth, boolean object) {
        at++;
        blanks();
        char close = object ? '}' : ']';
        if (at < text.length() && text.charAt(at) == close) {
            at++;
            return true;
        }
        while (true) {
            if (object) {
                blanks();
                String key = string();
                blanks();
                if (key == null || at >= text.length() || text.charAt(at++) != ':') {
                    return false;
                }
                if (depth == 0) {
                    top.add(key);
                }
            }
            if (!value(depth + 1)) {
                return false;
            }
            blanks();
            if (at >= text.length()) {
                return false;
            }
            char c = text.charAt(at++);
            if (c == close) {
                return true;
            }
            if (c != ',') {
                return false;
            }
        }
    }

    private String string() {
        if (at >= text.length() || text.charAt(at) != '"') {
            return null;
        }
        int start = ++at;
        while (at < text.length() && text.charAt(at) != '"' && text.charAt(at) >= ' ') {
            at += text.charAt(at) == '\\' ? 2 : 1;
        }
        return at < text.length() && text.charAt(at) == '"' ? text.substring(start, at++) : null;
    }

    private void blanks() {
        while (at < text.length() && " \t\r\n".indexOf(text.charAt(at)) >= 0) {
            at++;
        }
    }
}
