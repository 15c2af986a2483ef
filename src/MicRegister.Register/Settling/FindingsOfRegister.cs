using MicRegister.Register.Deployment;
using MicRegister.Register.Intake;
using MicRegister.Register.Labels;
using MicRegister.Register.People;

namespace MicRegister.Register.Settling;

/// <summary>What people should settle in the facts themselves.</summary>
public static class FindingsOfRegister
{
    extension(Register register)
    {
        /// <summary>
        /// Rivals, circles, replacements that do not fit, clocks, bodies that cannot be used, labels, names that look alike,
        /// and what crews said of campaigns around a day.
        /// </summary>
        /// <param name="today">The day it is.</param>
        public IReadOnlyList<RegisterFinding> Findings(DateOnly today) =>
        [
            .. CorrectionFindings.Of(register), .. UnreadFindings.Of(register), .. LabelBook.Findings(register),
            .. PutAside.Findings(register), .. PeopleFindings.Of(register), .. DeploymentFindings.Around(register, today),
        ];
    }
}
