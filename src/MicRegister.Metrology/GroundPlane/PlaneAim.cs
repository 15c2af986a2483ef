namespace MicRegister.Metrology.GroundPlane;

/// <summary>The steady level re free field that a mount is meant to have.</summary>
public enum PlaneAim
{
    /// <summary>Direct and reflected sound in phase, 20 lg 2: flush, or close over a plate.</summary>
    PressureDoubling,

    /// <summary>The average over dips and peaks, 10 lg 2, over bands alone: on a stand.</summary>
    EnergyAverage,

    /// <summary>As if there were no ground, 0 dB: high on a pole.</summary>
    FreeField,
}
