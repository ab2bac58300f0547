package sectorglass.decode.internal.text;

import java.util.Arrays;
import java.util.List;

/** An enumeration of a spec: members by number. Immutable. */
public final class EnumTable {

    /**
     * A member.
     *
     * @param value the number, as its bits
     * @param id the spec's id
     * @param label short words, or null
     * @param doc the spec's doc, or null
     */
    public record Member(long value, String id, String label, String doc) {

        /** The label, else the id with blanks for underscores. */
        public String words() {
            return label != null ? label : id.replace('_', ' ');
        }
    }

    private final String name;
    private final long[] values;
    private final Member[] members;

    /** @param name the enumeration's name with the types it lies in */
    public EnumTable(String name, List<Member> all) {
        this.name = name;
        members = all.stream().sorted((a, b) -> Long.compare(a.value, b.value)).toArray(Member[]::new);
        values = Arrays.stream(members).mapToLong(Member::value).toArray();
    }

    /** Name with the types it lies in, {@code mbr::partition_type}. */
    public String name() {
        return name;
    }

    /** The member of a number, or null. */
    public Member find(long value) {
        int at = Arrays.binarySearch(values, value);
        return at < 0 ? null : members[at];
    }

    /** The member of an id, or null. */
    public Member named(String id) {
        for (Member member : members) {
            if (member.id.equals(id)) {
                return member;
            }
        }
        return null;
    }

    /** All members in order of their numbers. */
    public List<Member> members() {
        return List.of(members);
    }
}
