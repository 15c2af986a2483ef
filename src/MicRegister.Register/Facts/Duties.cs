namespace MicRegister.Register.Facts;

/// <summary>What a person, a script or a phone may do; several can be held together.</summary>
[Flags]
public enum Duties
{
    /// <summary>Nothing.</summary>
    None = 0,

    /// <summary>See everything, state nothing.</summary>
    Look = 1,

    /// <summary>Lay out, check, swap and take in; report what happened to a device.</summary>
    Field = 2,

    /// <summary>State calibrations and checks.</summary>
    Bench = 4,

    /// <summary>Enter devices, plan campaigns, write requirement profiles, take over files.</summary>
    Plan = 8,

    /// <summary>All of it, and decide who may do what.</summary>
    Own = 16,

    /// <summary>Whoever works with the devices themselves.</summary>
    Works = Field | Bench | Plan,

    /// <summary>Whoever is signed in.</summary>
    Any = Look | Field | Bench | Plan | Own,
}
