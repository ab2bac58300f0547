package sectorglass.decode.internal.text;

/**
 * Three bytes as a partition entry packs a CHS address: head; sector in bits 0 to 5, bits 8 and 9 of the cylinder in bits 6 and 7;
 * cylinder (UEFI 2.10, section 5.2.1, table "Legacy MBR Partition Record", fields StartingCHS and EndingCHS).
 */
record ChsUnit() implements Unit {
    private static final int HEADS = 255;
    private static final int SECTORS = 63;

    @Override
    public String word() {
        return "chs";
    }

    private static int cylinder(byte[] bytes) {
        return bytes[2] & 0xFF | (bytes[1] & 0xC0) << 2;
    }

    @Override
    public String value(Object raw, boolean unsigned) {
        if (!(raw instanceof byte[] bytes) || bytes.length != 3) {
            return null;
        }
        return cylinder(bytes) + "/" + (bytes[0] & 0xFF) + "/" + (bytes[1] & 0x3F);
    }

    @Override
    public String meaning(Object raw, boolean unsigned) {
        if (!(raw instanceof byte[] bytes) || bytes.length != 3) {
            return null;
        }
        int head = bytes[0] & 0xFF;
        int sector = bytes[1] & 0x3F;
        String text = value(raw, unsigned);
        if (sector == 0) {
            return head == 0 && cylinder(bytes) == 0 ? Texts.of("meaning.chs-unused") : Texts.of("meaning.chs-no-sector", text);
        }
        if (cylinder(bytes) == 1023) {
            return Texts.of("meaning.chs-limit", text);
        }
        if (head >= HEADS) {
            return Texts.of("meaning.chs-no-head", text);
        }
        long lba = ((long) cylinder(bytes) * HEADS + head) * SECTORS + sector - 1;
        return Texts.of("meaning.chs", text, Numbers.grouped(lba, false), String.valueOf(HEADS), String.valueOf(SECTORS));
    }
}
