package sectorglass.tests.propose;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Random;
import java.util.regex.Pattern;

import sectorglass.image.SectorRanges;

/**
 * A disk and what is done to it.
 *
 * @param disk name of the disk
 * @param damage in words, for the table
 * @param wounds places that are overwritten
 * @param unknown what nothing on the damaged disk determines: taken out of both readings before they are compared
 * @param identical whether the corrected copy must be the disk as it was, byte by byte
 */
record Case(String disk, String damage, List<Wound> wounds, List<Unknown> unknown, boolean identical) {

    /** Ways to overwrite. */
    enum With {
        ZERO, RANDOM, FLIP, TEXT, UNREAD
    }

    /** A place; negative sectors count from the end. */
    record Wound(long lba, int at, int bytes, With with) { }

    /** A field that stays unknown: its name and where utilities print it. */
    record Unknown(String field, Pattern printed) {
        static final Unknown SIGNATURE = of("disk signature", "\"id\": *\"[^\"]*\"|\\s*UUID=\"([0-9a-f]{8}-[0-9a-f]{2})?\"|\"uuid\": *\"[^\"]*\"|PTUUID=\"[^\"]*\"");
        static final Unknown ACTIVE = of("active flag", ",?\\s*\"bootable\": *true");
        static final Unknown TYPE = of("container type", "\"type\": *\"(5|f)\"|TYPE=\"0x[5f]\"");
        static final Unknown DISK_GUID = of("disk GUID, first usable LBA", "\"id\": *\"[^\"]*\"|PTUUID=\"[^\"]*\"|Disk identifier.*|\"firstlba\": *\\d+");
        static final Unknown ENTRY = of("partition GUIDs, names, type GUIDs", "\\s*\"(uuid|name|type)\": *\"[^\"]*\",?|(UUID|NAME|TYPE)=\"[^\"]*\"");
        static final Unknown SERIAL = of("serial number, boot code", "\\s*UUID=\"[^\"]*\"|Volume Serial.*");
        static final Unknown RANDOM_SERIAL = of("serial number, formatter's name, boot code", "\\s*(UUID|SEC_TYPE|PTTYPE)=\"[^\"]*\"");
        static final Unknown BOOT_CODE = of("boot code", "$^");

        static Unknown of(String field, String printed) {
            return new Unknown(field, Pattern.compile(printed));
        }
    }

    String strip(String reading) {
        String text = reading;
        for (Unknown one : unknown) {
            text = one.printed().matcher(text).replaceAll("");
        }
        return text;
    }

    void inflict(byte[] disk, int sectorSize) {
        for (Wound wound : wounds) {
            long lba = wound.lba() < 0 ? disk.length / sectorSize + wound.lba() : wound.lba();
            int first = Math.toIntExact(lba * sectorSize + wound.at());
            byte[] bytes = java.util.Arrays.copyOfRange(disk, first, first + wound.bytes());
            overwrite(bytes, wound);
            System.arraycopy(bytes, 0, disk, first, bytes.length);
        }
    }

    /** The sectors that count as not read. */
    SectorRanges unread(long sectors, int sectorSize) {
        SectorRanges.Builder all = new SectorRanges.Builder();
        for (Wound wound : wounds) {
            if (wound.with() == With.UNREAD) {
                all.add(wound.lba() < 0 ? sectors + wound.lba() : wound.lba(), wound.bytes() / sectorSize);
            }
        }
        return all.build();
    }

    private static void overwrite(byte[] bytes, Wound wound) {
        byte[] text = "Dear reader, this is a letter. ".getBytes(StandardCharsets.US_ASCII);
        Random random = new Random(wound.lba() * 31 + wound.at());
        for (int i = 0; i < bytes.length; i++) {
            bytes[i] = switch (wound.with()) {
                case ZERO, UNREAD -> 0;
                case RANDOM -> (byte) random.nextInt();
                case FLIP -> (byte) (bytes[i] ^ 0x10);
                case TEXT -> text[i % text.length];
            };
        }
    }
}
