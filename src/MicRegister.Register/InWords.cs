using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Events;
using MicRegister.Register.Readiness;
using MicRegister.Register.Tracing;

namespace MicRegister.Register;

/// <summary>
/// What the register's words of choice are called where people read them: one table each, asked by findings, pages, reports, the command line
/// and, through their kit, phones. Kinds of devices have theirs in <see cref="DeviceKind.Label"/>. All are written so that they can stand
/// within a sentence.
/// </summary>
public static class InWords
{
    /// <summary>How a microphone stands: "S1 stands flush in a ground plate".</summary>
    public static string Of(Mount mount) => mount switch
    {
        Mount.FlushPlate => "flush in a ground plate",
        Mount.InvertedPlate => "inverted over a ground plate",
        Mount.GroundStand => "on a stand",
        Mount.Pole => "on a pole",
        _ => throw Unknown(mount),
    };

    /// <summary>State of use: "it is out of service".</summary>
    public static string Of(DeviceStatus status) => status switch
    {
        DeviceStatus.InService => "in service",
        DeviceStatus.Away => "away",
        DeviceStatus.OutOfService => "out of service",
        DeviceStatus.Lost => "lost",
        DeviceStatus.Retired => "retired",
        _ => throw Unknown(status),
    };

    /// <summary>What flies: "the source is a small multirotor".</summary>
    public static string Of(SourceClass source) => source switch
    {
        SourceClass.Jet => "a jet aeroplane",
        SourceClass.Propeller => "a propeller aeroplane",
        SourceClass.SmallMultirotor => "a small multirotor",
        SourceClass.Other => "something else",
        _ => throw Unknown(source),
    };

    /// <summary>When a check was made, in a word.</summary>
    public static string Of(CheckMoment moment) => moment switch
    {
        CheckMoment.Before => "before",
        CheckMoment.After => "after",
        CheckMoment.Other => "at another time",
        _ => throw Unknown(moment),
    };

    /// <summary>When a check was made, in a sentence: "the check after the recordings".</summary>
    public static string InFull(CheckMoment moment) => moment == CheckMoment.Other ? Of(moment) : Of(moment) + " the recordings";

    /// <summary>What is taken along for what: "as a spare".</summary>
    public static string Of(KitPurpose purpose) => purpose switch
    {
        KitPurpose.Spare => "spares",
        KitPurpose.Check => "for the checks",
        _ => throw Unknown(purpose),
    };

    /// <summary>What was done to a device.</summary>
    public static string Of(ServiceKind kind) => kind switch
    {
        ServiceKind.Maintenance => "maintenance",
        ServiceKind.Repair => "repair",
        ServiceKind.Modification => "modification",
        ServiceKind.Damage => "damage",
        ServiceKind.Malfunction => "malfunction",
        ServiceKind.Verification => "verification",
        ServiceKind.Planned => "planned",
        _ => throw Unknown(kind),
    };

    /// <summary>How far a station is.</summary>
    public static string Of(StationState state) => state switch
    {
        StationState.Planned => "planned",
        StationState.Placed => "placed",
        StationState.Checked => "checked",
        StationState.Failing => "failing",
        StationState.TakenIn => "taken in",
        _ => throw Unknown(state),
    };

    /// <summary>What happened over or beside the array.</summary>
    public static string Of(EventKind kind) => kind switch
    {
        EventKind.FlyOver => "fly-over",
        EventKind.Run => "run",
        EventKind.Hover => "hover",
        EventKind.Ambient => "background",
        EventKind.Other => "other",
        _ => throw Unknown(kind),
    };

    /// <summary>The time that a clock shows.</summary>
    public static string Of(TimeScale scale) => scale switch
    {
        TimeScale.Utc => "UTC",
        TimeScale.Gps => "GPS time",
        TimeScale.Local => "site time",
        _ => throw Unknown(scale),
    };

    /// <summary>Verdict of a device, a station or a campaign.</summary>
    public static string Of(ReadinessVerdict verdict) => verdict switch
    {
        ReadinessVerdict.Ready => "ready",
        ReadinessVerdict.AtRisk => "at risk",
        ReadinessVerdict.NotReady => "not ready",
        ReadinessVerdict.Undecided => "undecided",
        _ => throw Unknown(verdict),
    };

    /// <summary>How grave a finding is.</summary>
    public static string Of(Gravity gravity) => gravity switch
    {
        Gravity.Note => "note",
        Gravity.Risks => "risks",
        Gravity.Stops => "stops",
        _ => throw Unknown(gravity),
    };

    /// <summary>What clears a finding, as an act.</summary>
    public static string Of(Clearing clearing) => clearing switch
    {
        Clearing.Calibrate => "calibrate",
        Clearing.Swap => "swap",
        Clearing.Inspect => "inspect",
        Clearing.Decide => "decide",
        Clearing.Enter => "enter what is missing",
        Clearing.Plan => "change the plan",
        _ => throw Unknown(clearing),
    };

    /// <summary>Verdict of a trace.</summary>
    public static string Of(TraceVerdict verdict) => verdict switch
    {
        TraceVerdict.Valid => "valid",
        TraceVerdict.Doubtful => "doubtful",
        TraceVerdict.NotValid => "not valid",
        _ => throw Unknown(verdict),
    };

    /// <summary>Where the sensitivity comes from that is applied: "it is told by the mean of its checks".</summary>
    public static string Of(SensitivityRule rule) => rule switch
    {
        SensitivityRule.MeanOfChecks => "the mean of its checks",
        SensitivityRule.Certificate => "its certificates",
        SensitivityRule.LinearBetween => "a straight line between its certificates",
        _ => throw Unknown(rule),
    };

    private static ArgumentOutOfRangeException Unknown<T>(T value)
        where T : struct, Enum => new(nameof(value), value, $"no {typeof(T).Name} of this register");
}
