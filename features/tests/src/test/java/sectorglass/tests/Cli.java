package sectorglass.tests;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.MappingIterator;
import com.fasterxml.jackson.databind.ObjectMapper;

import sectorglass.cli.Main;

/** Runs a command in this process and keeps what it said. */
record Cli(int status, String out, String err) {
    private static final ObjectMapper JSON = new ObjectMapper();

    static Cli run(Object... args) {
        String[] words = new String[args.length];
        for (int i = 0; i < args.length; i++) {
            words[i] = args[i].toString();
        }
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        ByteArrayOutputStream err = new ByteArrayOutputStream();
        int status = Main.run(words, new PrintStream(out, false, StandardCharsets.UTF_8), new PrintStream(err, true, StandardCharsets.UTF_8));
        return new Cli(status, out.toString(StandardCharsets.UTF_8), err.toString(StandardCharsets.UTF_8));
    }

    /** The output as one JSON value; an assertion error with both streams where it is none. */
    JsonNode json() {
        try {
            return JSON.readTree(out);
        } catch (IOException e) {
            throw new AssertionError("status " + status + ", out " + out + ", err " + err, e);
        }
    }

    /** The output as one JSON value per line. */
    List<JsonNode> jsonLines() throws IOException {
        List<JsonNode> all = new ArrayList<>();
        try (MappingIterator<JsonNode> values = JSON.readerFor(JsonNode.class).readValues(out)) {
            values.forEachRemaining(all::add);
        }
        return all;
    }

    /** Ids of the checks in the findings that are listed. */
    List<String> checks() {
        List<String> ids = new ArrayList<>();
        json().get("findings").forEach(f -> ids.add(f.get("check").asText()));
        return ids;
    }
}
