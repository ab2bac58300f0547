package sectorglass.disk;

import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

import sectorglass.image.ByteRange;

/** Puts a {@link Sighting} together. */
public final class SightingBuilder {
    private final String kind;
    private final String structure;
    private final ByteRange where;
    private final Map<String, Object> facts = new LinkedHashMap<>();
    private final List<Sighting.Evidence> evidence = new ArrayList<>();
    private final List<Sighting.Vote> votes = new ArrayList<>();
    private Sighting.Copy copy = Sighting.Copy.UNDECIDED;
    private String format;
    private Map<String, Object> params = Map.of();
    private String identity;
    private Instant latest;

    /** A structure of this kind and sort at a place; see {@link Sighting}. */
    public SightingBuilder(String kind, String structure, long firstByte, int length) {
        this.kind = kind;
        this.structure = structure;
        this.where = new ByteRange(firstByte, length);
    }

    /** Which copy it is. */
    public SightingBuilder copy(Sighting.Copy which) {
        copy = which;
        return this;
    }

    /** The format that explains it. */
    public SightingBuilder format(String id, Map<String, Object> parameters) {
        format = id;
        params = parameters;
        return this;
    }

    /** A decoded value; left out where it is null. */
    public SightingBuilder fact(String name, Object value) {
        if (value != null) {
            facts.put(name, value);
        }
        return this;
    }

    /** Evidence where the condition holds. */
    public SightingBuilder because(boolean holds, Sighting.Reason reason) {
        if (holds) {
            evidence.add(Sighting.Evidence.of(reason));
        }
        return this;
    }

    /** Evidence from a rule: one reason where it holds, another where it does not, none where it could not be tried. */
    public SightingBuilder tried(Boolean holds, Sighting.Reason yes, Sighting.Reason no, String rule, long at) {
        if (holds != null) {
            evidence.add(new Sighting.Evidence(holds ? yes : no, rule, at));
        }
        return this;
    }

    /** A vote for a place of the volume; see {@link Sighting.Vote}. */
    public SightingBuilder vote(String by, long firstByte, long bytes, int weight) {
        votes.add(new Sighting.Vote(by, firstByte, bytes, weight));
        return this;
    }

    /** Serial number, UUID or GUID, or null. */
    public SightingBuilder identity(String id) {
        identity = id;
        return this;
    }

    /** The latest date in it, or null. */
    public SightingBuilder latest(Instant date) {
        latest = date;
        return this;
    }

    /** The sighting. */
    public Sighting build() {
        return new Sighting(kind, structure, copy, where, format, params, 1, 0, facts, evidence, votes, identity, latest);
    }
}
