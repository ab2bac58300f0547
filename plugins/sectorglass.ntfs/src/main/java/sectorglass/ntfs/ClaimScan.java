package sectorglass.ntfs;

/** Collects the runs of every record of a scan, cut to the volume. */
final class ClaimScan {
    private final Geometry geometry;
    private final Claims claims;
    private final RunList runs = new RunList();

    ClaimScan(Geometry geometry, Claims claims) {
        this.geometry = geometry;
        this.claims = claims;
    }

    void record(RecordView view) {
        if (!view.usable()) {
            return;
        }
        view.rewind();
        while (view.nextAttribute()) {
            if (!view.resident() && view.has(view.attribute, 0x40)) {
                runs.clear();
                runs.add(view, view.runsOffset(), view.next, Math.max(0, view.lowestVcn()));
                add(view, runs);
            }
        }
    }

    /** Adds decoded runs of the attribute at the cursor. */
    void add(RecordView view, RunList decoded) {
        for (int i = 0; i < decoded.runs(); i++) {
            long lcn = decoded.lcn(i);
            if (lcn != RunList.HOLE && lcn < geometry.clusters()) {
                claims.add(lcn, Math.min(decoded.count(i), geometry.clusters() - lcn), (int) view.number, view.attribute, !view.inUse());
            }
        }
    }
}
