using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Readiness;

namespace MicRegister.Server.Api;

/// <summary>Words and shapes for people, in one place for pages, prints and the command line.</summary>
public static class Words
{
    /// <summary>Shape and word of a verdict: in black and white nothing is lost.</summary>
    public static (string Shape, string Word) Verdict(ReadinessVerdict verdict) => verdict switch
    {
        ReadinessVerdict.Ready => ("●", "ready"),
        ReadinessVerdict.AtRisk => ("▲", "at risk"),
        ReadinessVerdict.NotReady => ("■", "not ready"),
        _ => ("◇", "undecided"),
    };

    /// <summary>What clears a finding, as an act.</summary>
    public static string Act(Clearing clearing) => clearing switch
    {
        Clearing.Calibrate => "calibrate",
        Clearing.Swap => "swap",
        Clearing.Inspect => "inspect",
        Clearing.Decide => "decide",
        Clearing.Enter => "enter what is missing",
        _ => "change the plan",
    };

    public static (string Shape, string Word) Gravity(Gravity gravity) => gravity switch
    {
        Register.Readiness.Gravity.Stops => ("■", "stops"),
        Register.Readiness.Gravity.Risks => ("▲", "risks"),
        _ => ("○", "note"),
    };

    public static string Status(DeviceStatus status) => status switch
    {
        DeviceStatus.InService => "in service",
        DeviceStatus.Away => "away",
        DeviceStatus.OutOfService => "out of service",
        DeviceStatus.Lost => "lost",
        _ => "retired",
    };

    public static string Mount(Mount mount) => mount switch
    {
        Register.Campaigns.Mount.FlushPlate => "flush in a ground plate",
        Register.Campaigns.Mount.InvertedPlate => "inverted over a ground plate",
        Register.Campaigns.Mount.GroundStand => "on a stand",
        _ => "on a pole",
    };

    public static string Source(SourceClass source) => source switch
    {
        SourceClass.Jet => "jet",
        SourceClass.Propeller => "propeller",
        SourceClass.SmallMultirotor => "small multirotor",
        _ => "something else",
    };
}
