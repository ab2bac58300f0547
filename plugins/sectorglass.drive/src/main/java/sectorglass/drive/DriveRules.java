package sectorglass.drive;

import org.osgi.service.component.annotations.Component;

import aQute.bnd.annotation.Resolution;
import aQute.bnd.annotation.spi.ServiceProvider;
import sectorglass.verify.PropertiesRuleSet;
import sectorglass.verify.RuleSet;

/** The rules of sectors in which a drive describes itself. */
@Component(service = RuleSet.class)
@ServiceProvider(value = RuleSet.class, resolution = Resolution.OPTIONAL)
public final class DriveRules extends PropertiesRuleSet { }
