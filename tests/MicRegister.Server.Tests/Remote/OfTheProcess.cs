namespace MicRegister.Server.Tests.Remote;

/// <summary>Tests that change what the whole process has one of, its folder and environment, come one after the other.</summary>
[CollectionDefinition(Name)]
public sealed class OfTheProcess
{
    public const string Name = "of the process";
}
