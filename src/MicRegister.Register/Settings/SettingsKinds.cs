using System.Globalization;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Settings;

/// <summary>Kinds of facts about the register itself.</summary>
internal sealed class SettingsKinds : IFactKinds
{
    public static IReadOnlyList<FactKind> Rows { get; } =
    [
        FactKind.Of("settings-chosen", 1, FactReading.Whole, FactReach.Everything, Duties.Plan, _ => PhoneReach.Nothing,
            new SettingsChosen(20, 4, 2, 1),
            f => string.Create(CultureInfo.InvariantCulture, $"{f.LaboratoryDays} days at a laboratory, {f.ShippingDays} on the way")),
    ];
}
