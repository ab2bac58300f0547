package sectorglass.disk;

import java.util.List;

/**
 * What a partition is probably for. A role sorts; it never removes anything.
 *
 * @param role the word
 * @param reasons in words, at least one
 */
public record Role(Kind role, List<String> reasons) {

    /** The words. */
    public enum Kind {
        USER_FOLDERS("user folders"), OPERATING_SYSTEM("operating system"), BOOT("boot"), RECOVERY("recovery"), SWAP("swap"),
        RESERVED("reserved"), ENCRYPTED("encrypted"), SET_MEMBER("set member"), UNKNOWN("unknown");

        private final String word;

        Kind(String word) {
            this.word = word;
        }

        /** The word in JSON and texts. */
        public String word() {
            return word;
        }
    }

    /** A role with one reason. */
    public static Role of(Kind role, String reason) {
        return new Role(role, List.of(reason));
    }
}
