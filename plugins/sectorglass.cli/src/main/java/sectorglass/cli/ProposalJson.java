package sectorglass.cli;

import java.io.PrintStream;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

import sectorglass.image.SectorImage;
import sectorglass.recovery.propose.Proposal;
import sectorglass.recovery.propose.ProposalFile;
import sectorglass.report.JsonOut;

/** Proposals as JSON, each as in its file. */
final class ProposalJson {
    private final PrintStream out;

    ProposalJson(PrintStream out) {
        this.out = out;
    }

    void write(List<Proposal> proposals, SectorImage image) {
        List<Map<String, Object>> all = new ArrayList<>();
        for (Proposal proposal : proposals) {
            all.add(ProposalFile.map(proposal, image, all.size() + 1));
        }
        try (JsonOut json = new JsonOut(out)) {
            json.object(() -> json.array("proposals", all, one -> value(json, one)));
        }
    }

    private static void value(JsonOut json, Object value) {
        if (value instanceof Map<?, ?> map) {
            json.object(() -> map.forEach((key, inner) -> field(json, (String) key, inner)));
        } else {
            json.value(value);
        }
    }

    private static void field(JsonOut json, String name, Object value) {
        if (value instanceof Map<?, ?> map) {
            json.object(name, () -> map.forEach((key, inner) -> field(json, (String) key, inner)));
        } else if (value instanceof List<?> list) {
            json.array(name, list, one -> value(json, one));
        } else {
            json.field(name, value);
        }
    }
}
