package stillhand;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.context.support.DefaultProfileValidationSupport;
import ca.uhn.fhir.context.support.IValidationSupport.IssueSeverity;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.hl7.fhir.common.hapi.validation.support.*;
import org.hl7.fhir.common.hapi.validation.validator.FhirInstanceValidator;
import org.hl7.fhir.r4.model.CodeSystem;
import org.hl7.fhir.r4.model.ValueSet;
import org.hl7.fhir.r5.utils.validation.constants.BestPracticeWarningLevel;

/**
 * Checks resources with the official validator's engine, without a network. First argument: the folder of the app's
 * own CodeSystems and ValueSets. The others: files. Writes one line a finding, in columns parted by tabs: file,
 * severity, place, kind, message; and one line a file, with `done` for the severity.
 */
public class Validate {
  public static void main(String[] args) throws Exception {
    var out = new PrintStream(System.out, true, StandardCharsets.UTF_8);
    var context = FhirContext.forR4();
    var validator = context.newValidator();
    validator.registerValidatorModule(engine(context, Path.of(args[0])));
    for (int i = 1; i < args.length; i++) {
      var file = args[i];
      for (var found : validator.validateWithResult(Files.readString(Path.of(file))).getMessages())
        out.println(
            String.join(
                "\t",
                file,
                found.getSeverity().getCode(),
                found.getLocationString(),
                found.getMessageId(),
                String.valueOf(found.getMessage()).replaceAll("\\s+", " ")));
      out.println(file + "\tdone\t\t\t");
    }
  }

  private static FhirInstanceValidator engine(FhirContext context, Path folder) throws Exception {
    var unknown = new UnknownCodeSystemWarningValidationSupport(context);
    unknown.setNonExistentCodeSystemSeverity(IssueSeverity.WARNING);
    var engine =
        new FhirInstanceValidator(
            new ValidationSupportChain(
                new DefaultProfileValidationSupport(context),
                own(context, folder),
                new CommonCodeSystemsTerminologyService(context),
                new InMemoryTerminologyServerValidationSupport(context),
                unknown));
    engine.setBestPracticeWarningLevel(BestPracticeWarningLevel.Warning);
    engine.setNoExtensibleWarnings(false);
    engine.setErrorForUnknownProfiles(true);
    return engine;
  }

  /** The app's own code systems, so that a code that is not in them is an error. */
  private static PrePopulatedValidationSupport own(FhirContext context, Path folder)
      throws Exception {
    var support = new PrePopulatedValidationSupport(context);
    try (var files = Files.list(folder)) {
      for (var file : files.filter(path -> path.toString().endsWith(".json")).sorted().toList()) {
        var resource = context.newJsonParser().parseResource(Files.readString(file));
        if (resource instanceof CodeSystem system) support.addCodeSystem(system);
        else if (resource instanceof ValueSet set) support.addValueSet(set);
      }
    }
    return support;
  }
}
