using MicRegister.Register.Facts;

namespace MicRegister.Register.Settings;

/// <summary>How long things take in this house. Subject: the register.</summary>
/// <param name="LaboratoryDays">Days that a laboratory keeps a device.</param>
/// <param name="ShippingDays">Days on the way, each way.</param>
/// <param name="SwapDays">Days to swap, replan or fetch a device.</param>
/// <param name="InspectionDays">Days to inspect a plate or to look into an alarm.</param>
public sealed record SettingsChosen(int LaboratoryDays, int ShippingDays, int SwapDays, int InspectionDays) : FactBody
{
    /// <summary>
    /// What holds until somebody chooses: 20 + 2 · 4 days for a calibration, 2 to swap, 1 to inspect (common practice, no source).
    /// </summary>
    public static SettingsChosen Default { get; } = new(20, 4, 2, 1);
}
