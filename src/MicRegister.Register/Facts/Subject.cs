namespace MicRegister.Register.Facts;

/// <summary>What facts are about: a short word for the sort, a colon, and an id.</summary>
public static class Subject
{
    /// <summary>The register as a whole: its name, settings, clocks and imports.</summary>
    public const string TheRegister = "register:this";

    public static string Device(string id) => "device:" + id;

    public static string Campaign(string id) => "campaign:" + id;

    public static string Profile(string id) => "profile:" + id;

    public static string Person(string id) => "person:" + id;

    /// <summary>A label, by its code.</summary>
    public static string Label(string code) => "label:" + code;

    public static string Event(string id) => "event:" + id;

    /// <summary>Something that was sent and is no fact, by its SHA-256.</summary>
    public static string Aside(string sha256) => "aside:" + sha256;

    /// <summary>The id after the colon.</summary>
    public static string Id(string subject) => subject[(subject.IndexOf(':', StringComparison.Ordinal) + 1)..];

    public static bool IsDevice(string subject) => subject.StartsWith("device:", StringComparison.Ordinal);

    public static bool IsEvent(string subject) => subject.StartsWith("event:", StringComparison.Ordinal);

    public static bool IsCampaign(string subject) => subject.StartsWith("campaign:", StringComparison.Ordinal);

    public static bool IsProfile(string subject) => subject.StartsWith("profile:", StringComparison.Ordinal);

    public static bool IsLabel(string subject) => subject.StartsWith("label:", StringComparison.Ordinal);

    public static bool IsAside(string subject) => subject.StartsWith("aside:", StringComparison.Ordinal);

    public static bool IsPerson(string subject) => subject.StartsWith("person:", StringComparison.Ordinal);
}
