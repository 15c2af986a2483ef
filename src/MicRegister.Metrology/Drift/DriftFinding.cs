namespace MicRegister.Metrology.Drift;

/// <summary>Something in a history that scatter and drift do not explain.</summary>
/// <param name="Kind">What it most likely is.</param>
/// <param name="Index">Index of the result with which it begins.</param>
/// <param name="SizeDb">Its size in dB: new level minus old, or result minus what was to be expected.</param>
/// <param name="Z">The size in its own standard deviations, with its sign.</param>
/// <param name="Lead">z² of the best step minus z² of the best bad result: above 2 a step, under -2 a bad result; 0 where they cannot be told apart.</param>
/// <param name="Threshold">What |z| had to exceed.</param>
public readonly record struct DriftFinding(DriftFindingKind Kind, int Index, double SizeDb, double Z, double Lead, double Threshold)
{
    /// <summary>Whether the result itself is left out of forecasts.</summary>
    public bool LeavesOut => Kind is DriftFindingKind.BadResult or DriftFindingKind.FirstOpen;

    /// <summary>Whether the level begins anew with the result.</summary>
    public bool BeginsAnew => Kind is DriftFindingKind.LastingStep or DriftFindingKind.Undecided;

    /// <summary>Whether it stands out in a whole fleet, where some are to be expected by chance.</summary>
    /// <param name="devices">Devices that were looked at, at least 1.</param>
    /// <param name="results">Results of the device.</param>
    /// <remarks>|z| > Phi^-1(1 - 0.05 / (2 N (2n - 3))): one false finding in twenty whole fleets.</remarks>
    public bool IsCertain(int devices, int results) => Math.Abs(Z) > StepScan.Factor(0.05 / devices, results);
}

/// <summary>What a finding most likely is.</summary>
public enum DriftFindingKind
{
    /// <summary>The device changed for good.</summary>
    LastingStep,

    /// <summary>This one result is wrong; the device is as before.</summary>
    BadResult,

    /// <summary>A step or a bad result: the data do not tell. Taken as a step, the wider answer.</summary>
    Undecided,

    /// <summary>The newest result deviates, and nothing after it tells what it was: repeat the calibration.</summary>
    NewestOpen,

    /// <summary>The first result deviates from all later ones; it is left out.</summary>
    FirstOpen,
}
