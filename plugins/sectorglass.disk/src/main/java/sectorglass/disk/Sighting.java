package sectorglass.disk;

import java.time.Instant;
import java.util.List;
import java.util.Map;

import sectorglass.image.ByteRange;

/**
 * A structure that a search met, decoded and checked by itself.
 *
 * @param kind of the volume or map it belongs to: ntfs … md, gpt, mbr, ebr
 * @param structure what it is, in lower-case words with hyphens: {@code boot-sector}, {@code superblock}, {@code file-records}
 * @param copy which of its copies it is
 * @param where its bytes; of a row, from the first byte of the first one to the last byte of the last one
 * @param format id of the format that explains it, or null
 * @param params parameters for that format
 * @param count how many stand there in a row; 1 for a structure that stands alone
 * @param stride bytes from one of the row to the next; 0 for a structure that stands alone
 * @param facts decoded values by their field's name, in the order to show them: numbers, texts, booleans
 * @param evidence what speaks for it and against it
 * @param votes where it says that its volume lies
 * @param identity serial number, UUID or GUID of the volume or disk as it is shown elsewhere, or null
 * @param latest the latest date in it, or null
 */
public record Sighting(String kind, String structure, Copy copy, ByteRange where, String format, Map<String, Object> params, long count,
        long stride, Map<String, Object> facts, List<Evidence> evidence, List<Vote> votes, String identity, Instant latest) {

    /** Bytes of a volume whose size the structure does not tell. */
    public static final long UNKNOWN = -1;

    /** Which copy of a structure. */
    public enum Copy {
        /** The first one, which drivers use. */
        PRIMARY,
        /** A further one. */
        BACKUP,
        /** One or several of many: records of a table. */
        RECORDS,
        /** The structure does not tell. */
        UNDECIDED;

        /** The word in JSON and texts. */
        public String word() {
            return name().toLowerCase(java.util.Locale.ROOT);
        }
    }

    /** Kinds of evidence; the points of all of them make the confidence. */
    public enum Reason {
        /** A checksum over the structure holds. */
        CHECKSUM_HOLDS(45),
        /** A checksum over the structure fails. */
        CHECKSUM_FAILS(-25),
        /** All fields are legal and agree with each other. */
        FIELDS_AGREE(30),
        /** Some fields are not legal. */
        FIELDS_ILLEGAL(-15),
        /** It says itself that it belongs where it stands. */
        KNOWS_ITS_PLACE(20),
        /** What it points to stands there. */
        TARGET_FOUND(25),
        /** Something else stands where it points. */
        TARGET_MISSING(-25),
        /** What it points to was not read or lies beyond the end. */
        TARGET_UNREAD(0),
        /** Its copy stands where it should and is equal. */
        COPY_EQUAL(20),
        /** A copy stands where it should and differs. */
        COPY_DIFFERS(5),
        /** No copy stands where it should. */
        COPY_MISSING(-5),
        /** It stands in a row of its like. */
        IN_A_ROW(30),
        /** Its signature is long enough not to be chance. */
        LONG_SIGNATURE(15);

        private final int points;

        Reason(int points) {
            this.points = points;
        }

        /** What it adds to the confidence, in percent. */
        public int points() {
            return points;
        }

        /** Key of its text. */
        public String key() {
            return name().toLowerCase(java.util.Locale.ROOT).replace('_', '-');
        }
    }

    /**
     * One reason to believe or to doubt a sighting.
     *
     * @param reason the kind of evidence
     * @param rule id of the rule that was tried, or null
     * @param at image byte it is about, or -1
     */
    public record Evidence(Reason reason, String rule, long at) {

        /** Evidence without a rule or place of its own. */
        public static Evidence of(Reason reason) {
            return new Evidence(reason, null, -1);
        }
    }

    /**
     * Where a structure says that its volume lies.
     *
     * @param by what in the structure tells: {@code own-place}, {@code hidden-sectors}, {@code total-sectors}, {@code group-number} …
     * @param firstByte image byte of the volume's first byte; may be negative where the start of the disk was lost
     * @param bytes size in bytes, or {@link #UNKNOWN}
     * @param weight how far it can be trusted: 1 a hint, 2 a field, 3 a structure found where the field says
     */
    public record Vote(String by, long firstByte, long bytes, int weight) { }

    /** Maps and lists are kept as unchangeable. */
    public Sighting {
        params = Map.copyOf(params);
        facts = java.util.Collections.unmodifiableMap(new java.util.LinkedHashMap<>(facts));
        evidence = List.copyOf(evidence);
        votes = List.copyOf(votes);
    }

    /** Confidence that this is the structure it seems to be: 1 to 99. */
    public int confidence() {
        int sum = 10;
        for (Evidence one : evidence) {
            sum += one.reason().points();
        }
        return Math.max(1, Math.min(99, sum));
    }
}
