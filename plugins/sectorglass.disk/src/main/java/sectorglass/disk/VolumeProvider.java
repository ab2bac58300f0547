package sectorglass.disk;

import java.util.List;
import java.util.Optional;

/** Knows a family of file systems or volume formats; a provider. */
public interface VolumeProvider {

    /** The kinds it recognises. */
    List<String> kinds();

    /** Bytes to scan for when volumes are lost. */
    List<Signature> signatures();

    /** Looks at a site. Reads little; unread bytes are no claim. */
    Optional<Claim> recognise(VolumeSite site);

    /** Opens a claim of its own. Never throws because of the bytes. */
    Volume open(Claim claim);
}
