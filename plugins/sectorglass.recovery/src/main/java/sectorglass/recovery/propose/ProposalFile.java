package sectorglass.recovery.propose;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;

import sectorglass.disk.Repair;
import sectorglass.image.ByteRange;
import sectorglass.image.SectorImage;
import sectorglass.image.Window;
import sectorglass.verify.Findings;

/** A proposal as a JSON file, form {@value #VERSION}: {@code docs/files.md}. */
public final class ProposalFile {
    /** The form written now. */
    public static final int VERSION = 1;
    private static final int LONGEST = 64 << 20;
    private static final ObjectMapper JSON = new ObjectMapper().enable(SerializationFeature.INDENT_OUTPUT);

    private ProposalFile() {
    }

    /**
     * Writes a proposal.
     *
     * @param image the image it is about, without the changes
     * @param rank its place among all, from 1
     * @throws IOException if the file exists, or cannot be written
     */
    public static void write(Path file, Proposal proposal, SectorImage image, int rank) throws IOException {
        Files.write(file, JSON.writeValueAsBytes(map(proposal, image, rank)), StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
    }

    /** The same as a map of plain values, for JSON on the command line. */
    public static Map<String, Object> map(Proposal proposal, SectorImage image, int rank) {
        Map<String, Object> map = new LinkedHashMap<>();
        map.put("version", VERSION);
        map.put("rank", rank);
        map.put("id", proposal.id());
        map.put("title", proposal.title());
        map.put("reason", proposal.reason());
        map.put("confidence", proposal.confidence());
        map.put("agreementNeeded", proposal.agreement());
        map.put("image", ordered("name", image.name(), "bytes", image.bytes(), "sectorSize", image.sectorSize()));
        map.put("harms", proposal.effect().harms());
        map.put("against", proposal.against());
        map.put("steps", proposal.steps().stream().map(step -> step(step, image)).toList());
        map.put("checks", checks(proposal.effect()));
        return map;
    }

    private static Map<String, Object> step(Repair step, SectorImage image) {
        return ordered("id", step.id(), "title", step.title(), "reason", step.reason(), "confidence", step.confidence(),
                "agreementNeeded", step.agreement(), "against", step.against(),
                "ranges", step.changes().stream().map(change -> change(change, image)).toList(),
                "kept", step.kept().stream().map(kept -> ordered("firstByte", kept.where().start(), "length", kept.where().length(),
                        "field", kept.field(), "why", kept.why())).toList());
    }

    private static Map<String, Object> change(Repair.Change change, SectorImage image) {
        Window old = image.window(change.firstByte(), change.bytes().length);
        boolean read = old.isRead(0, old.length());
        return ordered("firstByte", change.firstByte(), "lba", change.firstByte() / image.sectorSize(), "length", change.bytes().length,
                "old", read ? HexFormat.of().formatHex(old.raw(0, old.length())) : null,
                "new", HexFormat.of().formatHex(change.bytes()), "why", change.why());
    }

    private static Map<String, Object> checks(Effect effect) {
        return ordered("before", counts(effect.before()), "after", counts(effect.after()), "turned", turns(effect.turned()),
                "worse", turns(effect.worse()), "seenNow", turns(effect.seen()), "volumesBefore", effect.volumesBefore(),
                "volumesAfter", effect.volumesAfter());
    }

    private static Map<String, Object> counts(Findings.Counts c) {
        return ordered("unusable", c.unusable(), "atRisk", c.atRisk(), "cosmetic", c.cosmetic(), "notChecked", c.notChecked(),
                "passed", c.passed());
    }

    private static List<Map<String, Object>> turns(List<Turn> turns) {
        return turns.stream().map(turn -> ordered("check", turn.check(), "firstByte", turn.where().start(), "length",
                turn.where().length(), "from", turn.from() == null ? null : turn.from().word(), "to", turn.to() == null ? null : turn.to().word(),
                "severity", turn.severity() == null ? null : turn.severity().word(), "what", turn.what())).toList();
    }

    private static Map<String, Object> ordered(Object... pairs) {
        Map<String, Object> map = new LinkedHashMap<>();
        for (int i = 0; i < pairs.length; i += 2) {
            map.put((String) pairs[i], pairs[i + 1]);
        }
        return map;
    }

    /**
     * Reads the steps of a proposal file; what the checks said when it was written is not taken over, since they are run again.
     *
     * @throws IOException with a sentence if it is no proposal, of a later form, for an image of another size, or its old bytes are not
     *     those of the image
     */
    public static List<Repair> read(Path file, SectorImage image) throws IOException {
        if (Files.size(file) > LONGEST) {
            throw new IOException(file + " is too large for a proposal.");
        }
        JsonNode root;
        try {
            root = JSON.readTree(Files.readAllBytes(file));
        } catch (com.fasterxml.jackson.core.JsonProcessingException e) {
            throw new IOException(file + " is not a proposal file: " + e.getOriginalMessage(), e);
        }
        if (root.path("version").asInt() < 1 || root.path("version").asInt() > VERSION || !root.path("steps").isArray()) {
            throw new IOException(file + " is not a proposal file of a form known here.");
        }
        if (root.path("image").path("bytes").asLong() != image.bytes()) {
            throw new IOException(file + " is about an image of " + root.path("image").path("bytes").asLong() + " bytes; this one has "
                    + image.bytes() + ".");
        }
        List<Repair> steps = new ArrayList<>();
        try {
            for (JsonNode step : root.path("steps")) {
                steps.add(step(step, image, file));
            }
        } catch (IllegalArgumentException e) {
            throw new IOException(file + " is not a proposal file: " + e.getMessage(), e);
        }
        return List.copyOf(steps);
    }

    private static Repair step(JsonNode step, SectorImage image, Path file) throws IOException {
        List<Repair.Change> changes = new ArrayList<>();
        for (JsonNode range : step.path("ranges")) {
            byte[] bytes = HexFormat.of().parseHex(range.path("new").asText());
            long first = range.path("firstByte").asLong(-1);
            if (first < 0 || bytes.length == 0 || first > image.bytes() - bytes.length) {
                throw new IOException(file + ": range at byte " + first + " does not lie in the image.");
            }
            changes.add(new Repair.Change(first, bytes, range.path("why").asText()));
        }
        List<String> against = new ArrayList<>();
        step.path("against").forEach(one -> against.add(one.asText()));
        List<Repair.Kept> kept = new ArrayList<>();
        step.path("kept").forEach(one -> kept.add(new Repair.Kept(new ByteRange(one.path("firstByte").asLong(),
                one.path("length").asLong()), one.path("field").asText(), one.path("why").asText())));
        return new Repair(step.path("id").asText(), step.path("title").asText(), step.path("reason").asText(),
                step.path("confidence").asInt(), step.path("agreementNeeded").asBoolean(), changes, against, kept);
    }
}
